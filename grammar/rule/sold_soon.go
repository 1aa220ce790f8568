package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var soldSoon = &Rule{
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
				p.reportf(m.Entry, firstLine(m.Entry), []string{m.From.Name}, "%s is sold %s after grafting; give it %s (%s)",
					m.From.Name, days(age), l, l.Mark)
			}
		})
	},
}

// soldAge is the age of grafts that took and are sold, from the day they were
// made; of a joined lot from the youngest.
func soldAge(m *nursery.Move) (fact.Date, bool) {
	l := m.From
	if m.FromState != fact.Living || !l.Grafted() || l.Bare > 0 || l.How == fact.Returned {
		return 0, false
	}
	return m.Entry.Day() - l.Day, true
}
