package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var stockThin = &Rule{
	Name: "stock-caliper", Severity: finding.Warning, Limits: []string{"stock-caliper"},
	Summary: "stocks are grafted that are thinner than their kind, or the method, needs",
	Why: "On a thin stock the cambiums do not meet and the top outgrows its foot. How thick it should be differs by species, and the bark graft is for stumps. " +
		"Asked only where the caliper is written.",
	Bad:  kestrel + "\n2026-03-02\ngraft 40 of QB25 with M7 by cleft as AM26 caliper 4 mm worker Ines\n",
	Good: kestrel + "\n2026-03-02\ngraft 40 of QB25 with M7 by cleft as AM26 caliper 9 mm worker Ines\n",
	check: func(p *pass) {
		least, possible := p.gauge("stock-caliper"), p.gauge("caliper-least")
		p.grafts(func(b *nursery.Batch, f *fact.Graft) {
			mm, given := f.Caliper.In(fact.Millimetre)
			if !given || b.Limbs {
				return
			}
			if l, ok := possible.of(b.Entry.Date, nil, nil); ok && mm < l.Value {
				return
			}
			if l, ok := least.of(b.Entry.Date, b.Stock.Variety, b.Method); ok && mm < l.Value {
				p.reportf(b.Entry, f.Caliper.Span, []string{b.Lot.Name}, "stocks of %s %s are thin for this; from %s on they are worked (%s)",
					f.Caliper.Value, f.Caliper.Unit, l, l.Mark)
			}
		})
	},
}
