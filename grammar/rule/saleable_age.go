package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var soldYoung = &Rule{
	Name: "saleable-age", Severity: finding.Hint, Limits: []string{"saleable-age", "sold-soon"},
	Summary: "grafts are sold sooner than their kind mostly is",
	Why: "From the graft to a saleable plant takes some months, by species. A younger one may be in order, to another nursery for instance; " +
		"its price should be another too. Said once for each lot.",
	Bad:  bench + "2026-06-20\nsell 5 of AM26 to Bob at 19.00 each\n",
	Good: bench + "2026-11-20\nsell 5 of AM26 to Bob at 19.00 each\n",
	check: func(p *pass) {
		soon, ripe := p.gauge("sold-soon"), p.gauge("saleable-age")
		said := map[*nursery.Lot]bool{}
		p.moves(fact.Sold, func(m *nursery.Move) {
			age, ok := soldAge(m)
			if !ok || said[m.From] {
				return
			}
			least, ok := ripe.of(m.Entry.Date, m.From.Top.Variety, nil)
			if !ok || age >= least.Days() {
				return
			}
			if l, ok := soon.of(m.Entry.Date, m.From.Top.Variety, nil); ok && age < l.Days() {
				return
			}
			said[m.From] = true
			p.reportf(m.Entry, firstLine(m.Entry), []string{m.From.Name}, "%s is sold %s after grafting, and such plants are mostly saleable after %s (%s)",
				m.From.Name, days(age), least, least.Mark)
		})
	},
}
