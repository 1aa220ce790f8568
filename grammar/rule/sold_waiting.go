package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var soldWaiting = &Rule{
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
