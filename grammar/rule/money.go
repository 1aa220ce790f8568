package rule

import "github.com/budstick/budstick/grammar/fact"

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
