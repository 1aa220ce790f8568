package rule

import (
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var priceOutlier = &Rule{
	Name: "price-times", Severity: finding.Warning, Limits: []string{"price-times"},
	Summary: "a price is far from what such plants are sold at",
	Why: "A point in the wrong place, or the price of all written as the price of each. It is compared with the price that is declared, and with the middle " +
		"price of the same variety in the same pot, where there are five sales or more.",
	Bad:  bench + fiveSales + "sell 2 of AM26 to Bob at 190.00 each\n",
	Good: bench + fiveSales + "sell 2 of AM26 to Bob at 22.00 each\n",
	check: func(p *pass) {
		times := p.gauge("price-times")
		groups := map[soldAs]*group{}
		var order []*group
		var last *fact.Entry
		p.moves(fact.Sold, func(m *nursery.Move) {
			e, l := m.Entry, m.From
			f, ok := e.Effect.(*fact.Leave)
			if !ok || e == last { // plants in several states are several moves
				return
			}
			last = e
			price, currency, ok := priceOfOne(f)
			if !ok {
				return
			}
			if p.farFromList(e, f, l, price, times) {
				return
			}
			key := soldAs{top: l.Top, state: f.State, currency: currency}
			pot := l.SpotOn(e.Date).Pot
			key.pot, key.unit, key.label = pot.Size.Value, pot.Size.Unit, pot.Label
			g := groups[key]
			if g == nil {
				g = &group{soldAs: key}
				groups[key] = g
				order = append(order, g)
			}
			g.sales = append(g.sales, sale{e, l, price})
		})
		p.end(func() {
			for _, g := range order {
				p.outliers(g, times)
			}
		})
	},
}

// A sale is one entry, with the price of one plant.
type sale struct {
	entry *fact.Entry
	lot   *nursery.Lot
	price float64
}

// soldAs is what makes prices comparable.
type soldAs struct {
	top      nursery.Identity
	state    fact.State
	currency string
	pot      fact.Decimal
	unit     fact.Unit
	label    string
}

// A group is sales whose prices are comparable.
type group struct {
	soldAs
	sales []sale
}

// fewSales are too few to know the usual price from.
const fewSales = 5

// outliers reports the sales of a group that are far from its middle price.
func (p *pass) outliers(g *group, times *gauge) {
	if len(g.sales) < fewSales {
		return
	}
	prices := make([]float64, len(g.sales))
	for i, s := range g.sales {
		prices[i] = s.price
	}
	slices.Sort(prices)
	middle := prices[len(prices)/2]
	for _, s := range g.sales {
		l, ok := times.of(s.entry.Date, g.top.Variety, nil)
		if ok && l.Value > 0 && (s.price > l.Value*middle || s.price < middle/l.Value) {
			p.reportf(s.entry, firstLine(s.entry), []string{s.lot.Name}, "%.2f for one plant of %s is more than %s times away from the usual %.2f (the middle of %d sales; %s)",
				s.price, s.lot.Name, l, middle, len(g.sales), l.Mark)
		}
	}
}

// farFromList reports a sale that is far from the price that is declared for it.
func (p *pass) farFromList(e *fact.Entry, f *fact.Leave, l *nursery.Lot, price float64, times *gauge) bool {
	q, ok := p.Listed(e, f, f.State)
	if !ok || q.Each.Currency != f.Price.Each.Currency+f.Price.Total.Currency || q.Each.Amount.Zero() {
		return false
	}
	declared := q.Each.Amount.Float()
	limit, ok := times.of(e.Date, l.Top.Variety, nil)
	if !ok || limit.Value <= 0 || price <= limit.Value*declared && price >= declared/limit.Value {
		return false
	}
	p.reportf(e, firstLine(e), []string{l.Name}, "%.2f for one plant of %s is more than %s times away from the %.2f that is declared (%s)",
		price, l.Name, limit, declared, limit.Mark)
	return true
}

// priceOfOne is the price of one plant, as near as a rule of thumb needs it.
func priceOfOne(f *fact.Leave) (price float64, currency string, ok bool) {
	switch {
	case paid(f.Price.Each):
		return f.Price.Each.Amount.Float(), f.Price.Each.Currency, true
	case paid(f.Price.Total) && f.Count.N > 0:
		return f.Price.Total.Amount.Float() / float64(f.Count.N), f.Price.Total.Currency, true
	}
	return 0, "", false
}

// paid reports whether money was written, and is more than nothing.
func paid(m fact.Money) bool { return m.Given && !m.Amount.Zero() }

const fiveSales = `2026-11-20
sell 2 of AM26 to Bob at 19.00 each
sell 3 of AM26 to Bob at 18.50 each
2026-11-21
sell 2 of AM26 to Bob at 19.00 each
sell 4 of AM26 to Bob at 17.50 each
2026-11-22
sell 2 of AM26 to Bob for 40.00
`
