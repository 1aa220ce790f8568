package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var noMethod = &Rule{
	Name: "no-method", Severity: finding.Hint,
	Summary: "a graft does not say by which method it was made",
	Why:     "Without it the graft is missing where methods are compared, and the days of a method of your own can't apply.",
	Bad:     kestrel + "\n2026-03-02\ngraft 40 of QB25 with M7 as AM26 worker Ines\n",
	Good:    kestrel + "\n2026-03-02\ngraft 40 of QB25 with M7 by cleft as AM26 worker Ines\n",
	check: func(p *pass) {
		p.grafts(func(b *nursery.Batch, _ *fact.Graft) {
			if b.Method == nil {
				p.reportf(b.Entry, firstLine(b.Entry), []string{b.Lot.Name}, "nothing says how %s was grafted, so it is missing where methods are compared; add: by cleft, or what it was", b.Lot.Name)
			}
		})
	},
}
