package rule

import (
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var checkLate = &Rule{
	Name: "check-late", Severity: finding.Hint, Limits: []string{"stale-check"},
	Summary: "the first look at grafts came very late",
	Why:     "The take counts as it was found, but when and why the others died can't be known any more.",
	Bad: kestrel + `
2026-03-02
graft 40 of QB25 with M7 by cleft as AM26 worker Ines
2026-07-10
check AM26: 28 took, 12 failed
`,
	Good: kestrel + `
2026-03-02
graft 40 of QB25 with M7 by cleft as AM26 worker Ines
2026-03-30
check AM26: 28 took, 12 failed
`,
	check: func(p *pass) {
		stale := p.gauge("stale-check")
		p.batches(func(b *nursery.Batch) {
			if b.Kind != nursery.GraftBatch || len(b.Checks) == 0 || b.Checks[0].Day() <= b.Stale {
				return
			}
			if l, ok := stale.of(b.Entry.Date, b.Top.Variety, b.Method); ok {
				first := b.Checks[0]
				p.reportf(first, firstLine(first), []string{b.Lot.Name}, "this is the first look at %s, %s after grafting; after %s it no longer tells when they failed (%s)",
					b.Lot.Name, days(first.Day()-b.Day), l, l.Mark)
			}
		})
	},
}
