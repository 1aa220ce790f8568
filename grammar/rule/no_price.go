package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
)

var noPrice = &Rule{
	Name: "no-price", Severity: finding.Warning,
	Summary: "something is sold, and nothing says for how much",
	Why: "It is missing from every sum. A price that is declared will do: `price Amberlight at 19.00 each`. What costs nothing is given: " +
		"`give 2 of AM26 to Bob because …`.",
	Bad:  bench + "2026-11-20\nsell 5 of AM26 to Bob\n",
	Good: bench + "2026-11-20\nsell 5 of AM26 to Bob at 19.00 each\n",
	check: func(p *pass) {
		each(p, func(e *fact.Entry, f *fact.Leave) {
			t := p.thing(f.Of)
			if f.How != fact.Sold || t == nil || paid(f.Price.Each) || paid(f.Price.Total) {
				return
			}
			if !f.Price.Each.Given && !f.Price.Total.Given {
				if _, listed := p.Listed(e, f, f.State); listed {
					return
				}
			}
			p.reportf(e, firstLine(e), []string{f.Of.Text}, "nothing says what was paid for %s; add the price (at 19.00 each, or for 228.00), or give it", f.Of.Text)
		})
	},
}
