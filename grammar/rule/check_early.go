package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var checkEarly = &Rule{
	Name: "check-early", Severity: finding.Warning, Limits: []string{"first-check"},
	Summary: "grafts are said to have taken before that can be seen",
	Why: "A scion stays green and may even push on its own reserves for weeks. A verdict before that time is provisional, and a `fail` up to the " +
		"day of the first check still corrects it.",
	Bad: kestrel + `
2026-03-02
graft 40 of QB25 with M7 by cleft as AM26 worker Ines
2026-03-10
check AM26: 39 took, 1 failed
`,
	Good: kestrel + `
2026-03-02
graft 40 of QB25 with M7 by cleft as AM26 worker Ines
2026-03-30
check AM26: 31 took, 9 failed
`,
	check: func(p *pass) {
		first := p.gauge("first-check")
		p.batches(func(b *nursery.Batch) {
			if b.Kind != nursery.GraftBatch {
				return
			}
			for _, e := range b.Checks {
				if e.Day() >= b.FirstCheck || !saysTook(e) {
					continue
				}
				if l, ok := first.of(b.Entry.Date, b.Top.Variety, b.Method); ok {
					p.reportf(e, firstLine(e), []string{b.Lot.Name}, "%s was looked at %s after grafting, and a scion lives on its own reserves for about %s (%s); look again on %s",
						b.Lot.Name, days(e.Day()-b.Day), l, l.Mark, b.FirstCheck.Long())
				}
			}
		})
	},
}

// saysTook reports whether a check finds that something took.
func saysTook(e *fact.Entry) bool {
	for _, o := range e.Effect.(*fact.Check).Outcomes {
		if o.Verdict == fact.Took && o.Count.N > 0 {
			return true
		}
	}
	return false
}
