package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var caliperShrinks = &Rule{
	Name: "caliper-shrinks", Severity: finding.Warning,
	Summary: "stocks are thinner than when they were grafted before",
	Why:     "A stem does not shrink. One of the two numbers is a slip, or other plants were measured.",
	Bad:     kestrel + thick + "graft 8 failed of AM26 with M7 by cleft as AM26b caliper 7 mm worker Ines\n",
	Good:    kestrel + thick + "graft 8 failed of AM26 with M7 by cleft as AM26b caliper 9 mm worker Ines\n",
	check: func(p *pass) {
		p.grafts(func(b *nursery.Batch, f *fact.Graft) {
			mm, given := f.Caliper.In(fact.Millimetre)
			if !given || b.Limbs || b.From == nil || b.From.Batch == nil || b.From.Batch.Kind != nursery.GraftBatch {
				return
			}
			before := b.From.Batch.Entry
			q := before.Effect.(*fact.Graft).Caliper
			if was, given := q.In(fact.Millimetre); given && mm < was {
				fnd := p.reportf(b.Entry, f.Caliper.Span, []string{b.Lot.Name, b.From.Name}, "the stocks of %s were %s %s thick when they were grafted on %s, and %s %s now; mend one of the two",
					b.From.Name, q.Value, q.Unit, before.Day().Long(), f.Caliper.Value, f.Caliper.Unit)
				also(fnd, before, "grafted here")
			}
		})
	},
}
