package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/grammar/syntax"
)

var noWorker = &Rule{
	Name: "no-worker", Severity: finding.Hint,
	Summary: "a graft does not say who made it",
	Why: "The hand moves the take more than the method does. Without a name the graft is missing where workers are compared. " +
		"Asked only of a journal that names workers at all.",
	Bad:  kestrel + "\n2026-03-02\ngraft 40 of QB25 with M7 by cleft as AM26\n",
	Good: kestrel + "\n2026-03-02\ngraft 40 of QB25 with M7 by cleft as AM26 worker Ines\n",
	check: func(p *pass) {
		if len(p.Workers) == 0 {
			return
		}
		p.grafts(func(b *nursery.Batch, _ *fact.Graft) {
			if len(b.Entry.Workers()) == 0 {
				p.reportf(b.Entry, firstLine(b.Entry), []string{b.Lot.Name}, "nothing says who grafted %s, so it is missing where workers are compared; add: worker %s", b.Lot.Name, syntax.Spell(p.Workers[0].Name))
			}
		})
	},
}
