package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

// The rules about grafts that are sold young.
var (
	soldWaiting = &Rule{
		Name: "sold-waiting", Severity: finding.Warning,
		Summary: "grafts are sold before their check",
		Why:     "Nobody knows yet whether they took. They leave the rates without a verdict, and the buyer finds out.",
		Bad:     stale[:len(stale)-len("2026-06-01\nnote QB25 \"in leaf\"\n")] + "2026-03-20\nsell 5 waiting of AM26 to Bob at 6.00 each\n",
		Good:    bench + "2026-11-20\nsell 5 of AM26 to Bob at 19.00 each\n",
		check: func(p *pass) {
			p.moves(fact.Sold, func(m *nursery.Move) {
				if m.FromState == fact.Waiting {
					p.reportf(m.Entry, firstLine(m.Entry), []string{m.From.Name}, "%d of %s are sold while they still wait for their check; check first, then sell",
						m.N, m.From.Name)
				}
			})
		},
	}
	soldSoon = &Rule{
		Name: "sold-soon", Severity: finding.Warning, Limits: []string{"sold-soon"},
		Summary: "grafts are sold a few weeks after they were made",
		Why:     "A top that has only just taken dies in the move, and the buyer comes back. What predicts survival is the second flush, hardened.",
		Bad:     bench + "2026-04-02\nsell 5 of AM26 to Bob at 19.00 each\n",
		Good:    bench + "2026-11-20\nsell 5 of AM26 to Bob at 19.00 each\n",
		check: func(p *pass) {
			soon := p.gauge("sold-soon")
			p.moves(fact.Sold, func(m *nursery.Move) {
				age, ok := soldAge(m)
				if !ok {
					return
				}
				if l, ok := soon.of(m.Entry.Date, m.From.Top.Variety, nil); ok && age < l.Days() {
					p.reportf(m.Entry, firstLine(m.Entry), []string{m.From.Name}, "%s is sold %d days after grafting; give it %s (%s)",
						m.From.Name, age, l, l.Mark)
				}
			})
		},
	}
	soldYoung = &Rule{
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
				p.reportf(m.Entry, firstLine(m.Entry), []string{m.From.Name}, "%s is sold %d days after grafting, and such plants are mostly saleable after %s (%s)",
					m.From.Name, age, least, least.Mark)
			})
		},
	}
)

// soldAge is the age of grafts that took and are sold, from the day they were
// made; of a joined lot from the youngest.
func soldAge(m *nursery.Move) (fact.Date, bool) {
	l := m.From
	if m.FromState != fact.Living || !l.Grafted() || l.Bare > 0 || l.How == fact.Returned {
		return 0, false
	}
	return m.Entry.Day() - l.Day, true
}
