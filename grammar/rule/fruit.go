package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

// The rules about fruit.
var (
	bearsYoung = &Rule{
		Name: "bears-after", Severity: finding.Warning, Limits: []string{"bears-after", "seedling-bears-after"},
		Summary: "fruit is picked from a tree that is too young to bear",
		Why: "Mostly the wrong tree is named, or the year of planting is wrong. A grafted tree bears years before a seedling; the years differ by species. " +
			"Fruit on a plant that is still small is better taken off.",
		Bad:  kestrel + "tree M9 variety Amberlight at terrace-3 planted 2025\n2026-05-20\npick 2 kg from M9\n",
		Good: kestrel + "tree M9 variety Amberlight at terrace-3 planted 2020\n2026-05-20\npick 2 kg from M9\n",
		check: func(p *pass) {
			clone, seedling := p.gauge("bears-after"), p.gauge("seedling-bears-after")
			said := map[*nursery.Tree]bool{}
			each(p, func(e *fact.Entry, f *fact.Pick) {
				for _, name := range f.From {
					t, ok := p.thing(name).(*nursery.Tree)
					if !ok || t.Planted.First == 0 || said[t] {
						continue
					}
					after := clone
					if isSeedling(t) {
						after = seedling
					}
					if l, ok := after.of(e.Date, t.Variety, nil); ok && e.Day()-t.Planted.First < l.Days() {
						said[t] = true
						p.reportf(e, name.Span, []string{t.Name}, "%s has stood for %d months at most, and such trees bear after %s (%s); mend the tree, or the day it was planted",
							t.Name, (e.Day()-t.Planted.First)/30, l, l.Mark)
					}
				}
			})
		},
	}
	fruitMass = &Rule{
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
				mean := kilograms(f.Mass) / float64(f.Fruit.N)
				if l, ok := most.of(e.Date, v, nil); ok && mean > l.Value {
					p.reportf(e, f.Mass.Span, []string{f.From[0].Text}, "these fruit weigh %.2g kg each on average, and %s is the most for such (%s); mend the weight, its unit or the number",
						mean, l, l.Mark)
				}
			})
		},
	}
)

func kilograms(q fact.Quantity) float64 {
	per := 1.0
	switch q.Unit {
	case fact.Gram:
		per = 0.001
	case fact.Pound:
		per = 0.45359237
	case fact.Ounce:
		per = 0.028349523125
	}
	return q.Value.Float() * per
}
