package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var fruitMass = &Rule{
	Name: "fruit-mass", Severity: finding.Warning, Limits: []string{"fruit-mass"},
	Summary: "the fruit of a pick are heavier on average than such fruit can be",
	Why: "The weight and the number don't belong together, or the unit is wrong. The largest mangos are about 2.3 kg (common practice, no source); " +
		"for smaller fruit the limit is lower.",
	Bad:  kestrel + "2026-05-20\npick 31.5 kg, 42 fruit from M7\n",
	Good: kestrel + "2026-05-20\npick 31.5 kg, 420 fruit from M7\n",
	check: func(p *pass) {
		most := p.gauge("fruit-mass")
		each(p, func(e *fact.Entry, f *fact.Pick) {
			if !f.Mass.Given || f.Fruit.N == 0 || p.thing(f.From[0]) == nil {
				return
			}
			var v *nursery.Variety
			switch t := p.thing(f.From[0]).(type) {
			case *nursery.Tree:
				v = t.Variety
			case *nursery.Limb:
				v = t.Variety
			case *nursery.Lot:
				v = t.Top.Variety
			}
			kg, _ := f.Mass.In(fact.Kilogram)
			mean := kg / float64(f.Fruit.N)
			if l, ok := most.of(e.Date, v, nil); ok && mean > l.Value {
				p.reportf(e, f.Mass.Span, []string{f.From[0].Text}, "these fruit weigh %.2g kg each on average, and %s is the most for such (%s); mend the weight, its unit or the number",
					mean, l, l.Mark)
			}
		})
	},
}
