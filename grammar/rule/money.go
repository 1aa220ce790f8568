package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

// The rules about money and hours.
var (
	noCurrency = &Rule{
		Name: "no-currency", Severity: finding.Hint,
		Summary: "money is written without a currency, and the farm has none",
		Why:     "Sums of money need one currency. It is said once, with the farm, by its ISO 4217 code.",
		Bad:     "farm \"Kestrel Hollow\"\nparty Bob as supplier\nvariety \"Quince BA\" species \"Cydonia oblonga\" use rootstock\n2025-11-03\nbuy 100 liners of \"Quince BA\" as QB25 from Bob for 180.00\n",
		Good:    "farm \"Kestrel Hollow\" currency EUR\nparty Bob as supplier\nvariety \"Quince BA\" species \"Cydonia oblonga\" use rootstock\n2025-11-03\nbuy 100 liners of \"Quince BA\" as QB25 from Bob for 180.00\n",
		check: func(p *pass) {
			if p.Farm != nil && p.Farm.Currency != "" {
				return
			}
			said := false
			p.entries(func(e *fact.Entry) {
				if !said {
					eachMoney(e, func(m fact.Money) {
						if m.Currency == "" && !said {
							said = true
							p.reportf(e, m.Span, p.farm(), "%s of which money? write the currency with the farm: farm \"…\" currency EUR", m.Amount)
						}
					})
				}
			})
		},
	}
	noRate = &Rule{
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
	noWage = &Rule{
		Name: "no-wage", Severity: finding.Hint,
		Summary: "someone's hours are written down, and no wage",
		Why:     "Hours without a wage cost nothing in the reports; the owner's own too are worth something. Said once for each person.",
		Bad:     kestrel + "worker Ru note \"two days a week\"\nwork weeding worker Ru 3 h\n",
		Good:    kestrel + "worker Ru 13.00 per h\nwork weeding worker Ru 3 h\n",
		check: func(p *pass) {
			said := map[*nursery.Worker]bool{}
			p.entries(func(e *fact.Entry) {
				for _, by := range e.Workers() {
					if !by.Timed {
						continue
					}
					w, ok := p.Worker(by.Worker.Text)
					if !ok || said[w] {
						continue
					}
					said[w] = true
					if !hasWage(w) {
						p.reportf(e, by.Worker.Span, []string{w.Name}, "no wage of %s is known, so these hours cost nothing in the reports; write: worker %s … per h", w.Name, w.Name)
					}
				}
			})
		},
	}
	sharedCost = &Rule{
		Name: "shared-cost", Severity: finding.Hint,
		Summary: "money is spent, and nothing says for which plants",
		Why: "It is shared by all plants that stand. That is right for water and rent, and wrong for the pots of one lot: with `for` they bear it themselves. " +
			"Said once for each thing that money goes for; where it is meant for all, say how it is shared: `share water by plant-days`.",
		Bad:  kestrel + "spend 64.20 on pots\n",
		Good: kestrel + "spend 64.20 on pots for QB25\n",
		check: func(p *pass) {
			said := map[string]bool{}
			p.entries(func(e *fact.Entry) {
				if f, ok := e.Effect.(*fact.Share); ok {
					for _, label := range f.Labels {
						said[label.Text] = true
					}
				}
			})
			each(p, func(e *fact.Entry, f *fact.Spend) {
				if len(f.For) == 0 && !f.Over.Given && !said[f.On.Text] {
					said[f.On.Text] = true
					p.reportf(e, f.On.Span, []string{f.On.Text}, "%s is shared by all plants that stand this day; if it was for some, add: for AM26, and if for all, say so: share %s by plant-days", f.On.Text, quoteName(f.On.Text))
				}
			})
		},
	}
)

func hasWage(w *nursery.Worker) bool {
	for _, e := range w.Wages {
		if e.Effect.(*fact.Worker).Wage.Given {
			return true
		}
	}
	return false
}

// eachMoney gives all money that is written on an entry.
func eachMoney(e *fact.Entry, give func(fact.Money)) {
	some := func(list ...fact.Money) {
		for _, m := range list {
			if m.Given {
				give(m)
			}
		}
	}
	some(e.Costs()...)
	switch f := e.Effect.(type) {
	case *fact.Begin:
		some(f.Total)
	case *fact.Leave:
		some(f.Price.Each, f.Price.Total)
	case *fact.Return:
		some(f.Total)
	case *fact.Spend:
		some(f.Amount)
	case *fact.Worker:
		some(f.Wage)
	case *fact.Quote:
		some(f.Each)
	case *fact.Paid:
		some(f.Amount)
	}
}
