package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
)

var dateGap = &Rule{
	Name: "date-gap", Severity: finding.Warning, Limits: []string{"date-gap"},
	Summary: "a day follows years after the one before",
	Why: "Mostly a slip in the year, and all that follows would have to be dated after it. The tool does not look at the clock: a journal must lint the same " +
		"in ten years.",
	Bad:  kestrel + "2062-03-02\nlose QB25 to frost\ncause frost\n",
	Good: kestrel + "2026-03-02\nlose QB25 to frost\ncause frost\n",
	check: func(p *pass) {
		var before *fact.Entry
		gap := p.gauge("date-gap")
		p.entries(func(e *fact.Entry) {
			if before == nil || before.Date == 0 || e.Date == before.Date {
				before = e
				return
			}
			if l, ok := gap.of(e.Date, nil, nil); ok && e.Date-before.Date > l.Days() {
				f := p.reportf(e, firstLine(e), p.farm(), "%s is %d months after the entry before it, more than %s (%s); is the year right?", e.Date.Long(), (e.Date-before.Date)/30, l, l.Mark)
				also(f, before, "the entry before")
			}
			before = e
		})
	},
}
