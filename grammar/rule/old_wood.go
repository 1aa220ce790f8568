package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var oldWood = &Rule{
	Name: "old-wood", Severity: finding.Warning, Limit: "old-wood",
	Summary: "scions were set that had been kept for longer than their kind keeps",
	Why: "Wood dries and uses up its reserves. Grafts made with old wood fail, and the failure is then laid at the grafter's door. " +
		"How long wood keeps depends on the species and on how cool it lies; the days are rules of thumb, which `limit old-wood` changes.",
	Bad: kestrel + `
2026-02-01
cut 60 scions from M7 as W7
2026-03-02
graft 40 of QB24 with W7 by cleft as AM26 worker Ines
`,
	Good: kestrel + `
2026-02-28
cut 60 scions from M7 as W7
2026-03-02
graft 40 of QB24 with W7 by cleft as AM26 worker Ines
`,
	check: func(p *pass) {
		for _, b := range p.Batches {
			if b.Kind != nursery.GraftBatch {
				continue
			}
			for i, s := range b.Wood {
				wood, ok := s.Thing.(*nursery.Bundle)
				if !ok {
					continue
				}
				limit, ok := p.keeps(wood, b)
				if age := b.Day - wood.Day; ok && age > limit.Days() {
					at := b.Entry.Effect.(*fact.Graft).With[i].Span
					p.reportf(b.Entry, at, []string{b.Lot.Name, wood.Name}, "%s was cut %d days before, and %s wood kept so lasts about %s (%s)",
						wood.Name, age, speciesWord(b.Top), limit, limit.Mark)
				}
			}
		}
	},
}

// keeps is how long a bundle of wood keeps as it was stored.
func (p *pass) keeps(wood *nursery.Bundle, b *nursery.Batch) (nursery.Limit, bool) {
	of := []string{b.Top.Species()}
	if b.Top.Variety != nil {
		of = []string{b.Top.Variety.Name, b.Top.Species()}
	}
	name := "old-wood"
	switch wood.Store {
	case "cool", "cold":
		name += "-" + wood.Store
	}
	return p.Limit(name, b.Entry.Date, of...)
}

func speciesWord(id nursery.Identity) string {
	if s := id.Species(); s != "" {
		return s
	}
	return "such"
}
