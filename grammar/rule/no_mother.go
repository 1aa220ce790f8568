package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var noMother = &Rule{
	Name: "no-mother", Severity: finding.Hint,
	Summary: "cuttings are of a variety, and no mother tree is named",
	Why:     "If a tree turns out sick or untrue, plants of unknown mothers can't be called back. Name the tree, limb or bundle that they were taken from.",
	Bad:     kestrel + "stick 50 cuttings of Amberlight as AC26 worker Ines\n",
	Good:    kestrel + "stick 50 cuttings of M7 as AC26 worker Ines\n",
	check: func(p *pass) {
		p.batches(func(b *nursery.Batch) {
			if b.Kind == nursery.CuttingBatch && len(b.Wood) == 0 {
				f := b.Entry.Effect.(*fact.Begin)
				p.reportf(b.Entry, f.Of.Span, []string{b.Lot.Name}, "%s is a variety; name the tree or bundle that the cuttings were taken from, if it is known", f.Of.Text)
			}
		})
	},
}
