package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
)

var noRate = &Rule{
	Name: "no-rate", Severity: finding.Warning,
	Summary: "money is in a foreign currency of which no rate is known by then",
	Why:     "Foreign money is valued by the last rate on or before its day; without one it is missing from every sum. Said once for each currency.",
	Bad:     bench + "2026-11-20\nsell 5 of AM26 to Bob at 20.00 USD each\n",
	Good:    bench + "2026-11-20\nrate 1 USD is 0.92 EUR\nsell 5 of AM26 to Bob at 20.00 USD each\n",
	check: func(p *pass) {
		if p.Farm == nil || p.Farm.Currency == "" {
			return
		}
		since := map[string]fact.Date{}
		for _, e := range p.Rates {
			f := e.Effect.(*fact.Rate)
			for _, code := range []string{f.Of.Currency, f.Is.Currency} {
				if day, known := since[code]; !known || e.Date < day {
					since[code] = e.Date
				}
			}
		}
		said := map[string]bool{"": true, p.Farm.Currency: true}
		p.entries(func(e *fact.Entry) {
			eachMoney(e, func(m fact.Money) {
				if m.Currency == "" || said[m.Currency] {
					return
				}
				if day, known := since[m.Currency]; !known || e.Date < day {
					said[m.Currency] = true
					p.reportf(e, m.Span, []string{m.Currency}, "no rate of %s is known on this day, so this money is in no sum; write it above: rate 1 %s is … %s", m.Currency, m.Currency, p.Farm.Currency)
				}
			})
		})
	},
}
