package report

import (
	"fmt"
	"slices"

	"github.com/budstick/budstick/report/cost"
	"github.com/budstick/budstick/report/money"
	"github.com/budstick/budstick/report/table"
)

// moneyDiff compares what was sold and what it cost. Where money can't be
// compared it says why.
func moneyDiff(a, b side) (blocks []table.Block, notes []string) {
	first, err := earnedBy(a)
	if err != nil {
		return nil, []string{"Money is left out: " + err.Error() + "."}
	}
	second, err := earnedBy(b)
	if err != nil {
		return nil, []string{"Money is left out: " + err.Error() + "."}
	}
	if first.book.Currency != second.book.Currency {
		return nil, []string{fmt.Sprintf("Money is left out: one journal is in %s, the other in %s.", first.book.Currency, second.book.Currency)}
	}
	m := &moneyPair{first, second, [2]string{a.short, b.short}}
	for _, t := range []table.Table{m.revenue(), m.enterprises(), m.costs()} {
		if len(t.Rows) > 0 {
			blocks = append(blocks, t)
		}
	}
	return blocks, nil
}

func earnedBy(s side) (*earnings, error) {
	return earn(s.n, Options{AsAt: s.options.AsAt, Periods: s.options.Periods, By: []string{"variety"}})
}

// moneyPair is the earnings of the two sides, by variety.
type moneyPair struct {
	a, b  *earnings
	short [2]string // what the sides are called at the head of a column
}

// products are the names of all that was sold of an enterprise, or stands.
func (m *moneyPair) products(of cost.Enterprise) []string {
	var names []string
	for _, e := range []*earnings{m.a, m.b} {
		for _, x := range e.order[of] {
			names = append(names, x.values[0])
		}
	}
	slices.SortFunc(names, orderOfValues)
	return slices.Compact(names)
}

func (e *earnings) accountOf(of cost.Enterprise, name string) account {
	if a := e.accounts[of][name]; a != nil {
		return *a
	}
	return account{}
}

// revenue splits the change of what plants brought in by price, volume and mix.
func (m *moneyPair) revenue() table.Table {
	places := m.a.book.Places
	names := slices.DeleteFunc(m.products(cost.Trees), func(name string) bool {
		a, b := m.a.accountOf(cost.Trees, name), m.b.accountOf(cost.Trees, name)
		return a.sold == 0 && b.sold == 0 && a.revenue == b.revenue
	})
	t := table.Table{Name: "revenue", Title: "What plants brought in", Columns: []table.Column{
		{Name: "variety", Kind: table.KindText, Group: true},
		{Name: "sold_a", Heading: "sold " + m.short[0], Kind: table.KindCount, Spare: 4},
		{Name: "sold_b", Heading: "sold " + m.short[1], Kind: table.KindCount, Spare: 4},
		{Name: "revenue_a", Heading: m.short[0], Kind: table.KindMoney, Spare: 3},
		{Name: "revenue_b", Heading: m.short[1], Kind: table.KindMoney, Spare: 3},
		{Name: "change", Kind: table.KindMoney},
		{Name: "price", Kind: table.KindMoney},
		{Name: "volume", Kind: table.KindMoney},
		{Name: "mix", Kind: table.KindMoney},
	}}
	var changes []money.Change
	var before, after []money.Amount
	for _, name := range names {
		a, b := m.a.accountOf(cost.Trees, name), m.b.accountOf(cost.Trees, name)
		changes = append(changes, money.Change{Before: a.sold, After: b.sold, RevenueBefore: a.revenue, RevenueAfter: b.revenue})
		before, after = append(before, a.revenue), append(after, b.revenue)
	}
	each, whole := money.SplitRevenue(changes, places)
	cells := func(name string, sold, then int64, a, b money.Amount, e money.Effects) []table.Cell {
		return []table.Cell{textOrUnknown(name), table.Count(sold), table.Count(then), m.a.cash(a), m.a.cash(b),
			m.a.cash(e.Total()), m.a.cash(e.Price), m.a.cash(e.Volume), m.a.cash(e.Mix)}
	}
	var sold, then int64
	for i, name := range names {
		c := changes[i]
		t.Add(cells(name, c.Before, c.After, before[i], after[i], each[i])...)
		sold, then = sold+c.Before, then+c.After
	}
	if len(names) > 1 {
		t.Total = cells("all", sold, then, money.Sum(before...), money.Sum(after...), whole)
	}
	t.Notes = []string{"Price: the same plants at other prices. Volume: more or fewer in the old mix. Mix: dearer or cheaper kinds among them. The three add up to the change."}
	return t
}

// enterprises are the revenues of plants, fruit and wood.
func (m *moneyPair) enterprises() table.Table {
	t := table.Table{Name: "enterprises", Title: "Revenue in all", Columns: []table.Column{
		{Name: "enterprise", Kind: table.KindText, Group: true},
		{Name: "revenue_a", Heading: m.short[0], Kind: table.KindMoney},
		{Name: "revenue_b", Heading: m.short[1], Kind: table.KindMoney},
		{Name: "change", Kind: table.KindMoney},
	}}
	var a, b money.Amount
	first, second := m.a.balance(), m.b.balance()
	for i := range first {
		t.Add(table.Text(cost.Enterprise(i).String()), m.a.cash(first[i].revenue), m.a.cash(second[i].revenue), m.a.cash(second[i].revenue.Sub(first[i].revenue)))
		a, b = a.Add(first[i].revenue), b.Add(second[i].revenue)
	}
	t.Total = []table.Cell{table.Text("all"), m.a.cash(a), m.a.cash(b), m.a.cash(b.Sub(a))}
	return t
}

// costs are what a tree that can be sold cost, by variety.
func (m *moneyPair) costs() table.Table {
	t := table.Table{Name: "costs", Title: "Cost of a saleable tree", Columns: []table.Column{
		{Name: "variety", Kind: table.KindText, Group: true},
		{Name: "trees_a", Heading: "trees " + m.short[0], Kind: table.KindCount, Spare: 1},
		{Name: "cost_a", Heading: m.short[0], Kind: table.KindMoney},
		{Name: "trees_b", Heading: "trees " + m.short[1], Kind: table.KindCount, Spare: 1},
		{Name: "cost_b", Heading: m.short[1], Kind: table.KindMoney},
		{Name: "change", Kind: table.KindMoney},
	}}
	cells := func(name string, a, b account) []table.Cell {
		costA, treesA := a.perTree()
		costB, treesB := b.perTree()
		change := table.Unknown()
		if treesA > 0 && treesB > 0 {
			places := m.a.book.Places
			was, is := costA.MulFrac(1, treesA).Round(places, money.HalfEven), costB.MulFrac(1, treesB).Round(places, money.HalfEven)
			change = m.a.cash(is.Sub(was))
		}
		return []table.Cell{table.Text(name), table.Count(treesA), m.a.each(costA, treesA), table.Count(treesB), m.a.each(costB, treesB), change}
	}
	for _, name := range m.products(cost.Trees) {
		v, ok := m.b.n.Variety(name)
		if !ok {
			v, ok = m.a.n.Variety(name)
		}
		a, b := m.a.accountOf(cost.Trees, name), m.b.accountOf(cost.Trees, name)
		_, was := a.perTree()
		_, is := b.perTree()
		if ok && (v.Fact == nil || !v.Fact.Rootstock) && was+is > 0 {
			t.Add(cells(name, a, b)...)
		}
	}
	if len(t.Rows) > 1 {
		t.Total = cells("all", m.a.finished, m.b.finished)
	}
	t.Notes = []string{"All that was sold in the season and stands at its end, at cost, by what was sold and what lives."}
	return t
}
