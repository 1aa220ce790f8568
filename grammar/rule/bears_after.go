package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var bearsYoung = &Rule{
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
					p.reportf(e, name.Span, []string{t.Name}, "%s has stood for %s at most, and such trees bear after %s (%s); mend the tree, or the day it was planted",
						t.Name, finding.Counted((e.Day()-t.Planted.First)/30, "month", "months"), l, l.Mark)
				}
			}
		})
	},
}
