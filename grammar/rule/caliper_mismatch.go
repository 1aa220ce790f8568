package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var caliperMismatch = &Rule{
	Name: "caliper-mismatch", Severity: finding.Warning, Limits: []string{"caliper-mismatch"},
	Summary: "scions are much thicker than the stocks they are set on",
	Why:     "A thick scion on a thin stock meets its cambium on one side at most. Choose thinner wood, or wait for the stock.",
	Bad:     kestrel + "\n2026-03-02\ncut 40 scions from M7 as W7 store cool caliper 14 mm\ngraft 40 of QB25 with W7 by cleft as AM26 caliper 8 mm worker Ines\n",
	Good:    kestrel + "\n2026-03-02\ncut 40 scions from M7 as W7 store cool caliper 8 mm\ngraft 40 of QB25 with W7 by cleft as AM26 caliper 8 mm worker Ines\n",
	check: func(p *pass) {
		most := p.gauge("caliper-mismatch")
		p.grafts(func(b *nursery.Batch, f *fact.Graft) {
			stock, given := f.Caliper.In(fact.Millimetre)
			if !given || b.Limbs {
				return
			}
			for i, s := range b.Wood {
				wood, ok := s.Thing.(*nursery.Bundle)
				if !ok {
					continue
				}
				cut, ok := wood.Made.Effect.(*fact.Cut)
				if !ok {
					continue
				}
				scion, given := cut.Caliper.In(fact.Millimetre)
				if l, ok := most.of(b.Entry.Date, b.Top.Variety, b.Method); ok && given && (scion-stock)*100 > l.Value*stock {
					p.reportf(b.Entry, f.With[i].Span, []string{b.Lot.Name, wood.Name}, "scions of %s are %s %s thick and the stocks %s %s, more than %s thinner (%s)",
						wood.Name, cut.Caliper.Value, cut.Caliper.Unit, f.Caliper.Value, f.Caliper.Unit, l, l.Mark)
				}
			}
		})
	},
}
