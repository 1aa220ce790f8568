package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
)

var freeReason = &Rule{
	Name: "free-reason", Severity: finding.Hint,
	Summary: "something is given away without a reason",
	Why:     "Gifts, replacements and samples are costs of different kinds. A word on why makes them add up.",
	Bad:     bench + "2026-11-20\ngive 5 of AM26 to Bob\n",
	Good:    bench + "2026-11-20\ngive 5 of AM26 to Bob because \"replaces five that died\"\n",
	check: func(p *pass) {
		each(p, func(e *fact.Entry, f *fact.Leave) {
			if f.How == fact.Given && !f.Why.Given() && p.thing(f.Of) != nil {
				p.reportf(e, firstLine(e), []string{f.Of.Text}, "nothing says why %s was given; add: because \"a replacement\", or what it was", f.Of.Text)
			}
		})
	},
}
