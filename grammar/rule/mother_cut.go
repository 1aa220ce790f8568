package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var motherCut = &Rule{
	Name: "mother-cut", Severity: finding.Warning, Limits: []string{"mother-cut"},
	Summary: "more wood is taken from a tree in one season than its age allows",
	Why: "A mother that loses more than about a fifth of her shoots in a season goes back, and what she gives next year is thin. How many scions that is " +
		"differs with every tree; the rule reckons with a number for each year of her age, which `limit mother-cut` changes. A tree of unknown age is left alone.",
	Bad:  kestrel + youngTree + "2026-03-02\ncut 210 scions from M9 as W9 store cool\n",
	Good: kestrel + youngTree + "2026-03-02\ncut 60 scions from M9 as W9 store cool\n",
	check: func(p *pass) {
		perYear := p.gauge("mother-cut")
		taken := map[*nursery.Tree]int32{}
		var season fact.Season
		p.takings(func(t taking) {
			if t.tree == nil || t.scions <= 0 || t.tree.Planted.First == 0 {
				return
			}
			if day := t.entry.Date; !season.Contains(day) {
				season = fact.SeasonOf(day, p.SeasonFrom())
				clear(taken)
			}
			before := taken[t.tree]
			now := before + t.scions
			taken[t.tree] = now
			l, ok := perYear.of(t.entry.Date, t.tree.Variety, nil)
			years := max(1, (t.entry.Day()-t.tree.Planted.First)/365)
			if most := int32(l.Value * float64(years)); ok && now > most && before <= most {
				p.reportf(t.entry, t.name.Span, []string{t.tree.Name}, "%d scions are taken from %s in the season %d; a tree of %d years gives about %d (%s for each year, %s)",
					now, t.tree.Name, season.Year(), years, most, l, l.Mark)
			}
		})
	},
}

const youngTree = `tree M9 variety Amberlight at terrace-3 planted 2022
mark M9 verified because "leaf and fruit seen"
`
