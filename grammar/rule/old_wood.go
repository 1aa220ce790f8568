package rule

import (
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var oldWood = &Rule{
	Name: "old-wood", Severity: finding.Warning,
	Limits:  []string{"old-wood", "old-wood-cool", "old-wood-cold"},
	Summary: "scions were set that had been kept for longer than their kind keeps",
	Why: "Wood dries and uses up its reserves. Grafts made with old wood fail, and the failure is then laid at the grafter's door. " +
		"How long wood keeps depends on the species and on how cool it lies; the days are rules of thumb, which `limit old-wood` changes.",
	Bad: kestrel + `
2026-02-01
cut 60 scions from M7 as W7
2026-03-02
graft 40 of QB25 with W7 by cleft as AM26 worker Ines
`,
	Good: kestrel + `
2026-02-28
cut 60 scions from M7 as W7
2026-03-02
graft 40 of QB25 with W7 by cleft as AM26 worker Ines
`,
	check: func(p *pass) {
		keeps := map[string]*gauge{}
		for _, name := range []string{"old-wood", "old-wood-cool", "old-wood-cold"} {
			keeps[name] = p.gauge(name)
		}
		p.grafts(func(b *nursery.Batch, f *fact.Graft) {
			for i, s := range b.Wood {
				wood, ok := s.Thing.(*nursery.Bundle)
				if !ok || storedAs(wood) == "" {
					continue
				}
				limit, ok := keeps[storedAs(wood)].of(b.Entry.Date, b.Top.Variety, nil)
				if age := b.Day - wood.Day; ok && age > limit.Days() {
					p.reportf(b.Entry, f.With[i].Span, []string{b.Lot.Name, wood.Name}, "%s was cut %s before, and %s wood kept so lasts about %s (%s)",
						wood.Name, days(age), speciesWord(b.Top), limit, limit.Mark)
				}
			}
		})
	},
}

// storedAs is the limit for wood as it is stored, or nothing for a way of
// storing that has none.
func storedAs(wood *nursery.Bundle) string {
	switch {
	case wood.Store == "":
		return "old-wood"
	case strings.EqualFold(wood.Store, "cool"):
		return "old-wood-cool"
	case strings.EqualFold(wood.Store, "cold"):
		return "old-wood-cold"
	}
	return ""
}

func speciesWord(id nursery.Identity) string {
	if s := id.Species(); s != "" {
		return s
	}
	return "such"
}
