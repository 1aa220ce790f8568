package report

import (
	"fmt"
	"slices"
	"strings"

	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/cost"
	"github.com/budstick/budstick/report/money"
	"github.com/budstick/budstick/report/table"
)

var profit = &Report{
	Name:    "profit",
	Summary: "what was earned, what it cost, and what is still on the bench, to the cent",
	Long: `What was paid for plants, spent on them and worked on them follows the plants from lot to lot: stocks carry their
average cost into the graft, survivors bear what died, and what is sold takes its share along. Costs that name no lot are
shared by all that stands in the month (share water by area-days declares how). Every sum is exact, and the report shows
where the money went: what stood at cost at the beginning and what was spent is what was sold, given, planted out and lost,
and what stands at the end.

Trees, fruit and wood are reckoned apart. Below stand what a tree costs, the price that breaks even and the one that leaves
the margin asked for, and what a point of take or an hour at the bench would have been worth: the journal is reckoned again
as if it had been so.`,
	Example: "--by variety --season 2026 --selling 15 --margin 30",
	Takes:   Spans | Groups | Filters | Pricing,
	By:      profitBy,
	Build:   buildProfit,
}

func buildProfit(n *nursery.Nursery, o Options) (*table.Doc, error) {
	if len(o.By) == 0 {
		o.By = profitBy[:1]
	}
	e, err := earn(n, o)
	if err != nil {
		return nil, err
	}
	if err := e.matched(); err != nil {
		return nil, err
	}
	return e.report(), nil
}

// report writes the earnings down.
func (e *earnings) report() *table.Doc {
	n, o := e.n, e.options
	doc := calendar(n, o, "profit", "What was earned, by "+strings.Join(o.By, " and "))
	doc.Cautions = []string{accountantCaution}
	p := &profitDoc{earnings: e, balance: e.balance()}
	doc.Body = append(doc.Body, p.trees())
	if fruit := p.fruit(); len(fruit.Rows) > 0 {
		doc.Body = append(doc.Body, fruit)
	}
	if wood := p.wood(); len(wood.Rows) > 0 {
		doc.Body = append(doc.Body, wood)
	}
	doc.Body = append(doc.Body, p.identity(), p.enterprises())
	if e.finished.sold+e.finished.living > 0 {
		doc.Body = append(doc.Body, p.makeUp(), p.prices())
	}
	if grafted(n) && e.finished.sold+e.finished.living > 0 {
		doc.Body = append(doc.Body, p.worth())
		if t := p.tornado(); len(t.Swings) > 0 {
			doc.Body = append(doc.Body, t)
		}
	}
	if things := p.things(); len(things.Rows) > 0 {
		doc.Body = append(doc.Body, things)
	}
	doc.Notes = p.notes()
	return doc
}

// accountantCaution stands on every report of money.
const accountantCaution = "This is no tax advice. What may be put off as the cost of plants that do not bear or sell yet, and at what stock " +
	"may be valued, is a matter of local rules: ask an accountant."

// profitDoc writes earnings into a report.
type profitDoc struct {
	*earnings
	balance [cost.Enterprises]balanceSheet
}

// cash is a cell of money.
func (e *earnings) cash(a money.Amount) table.Cell {
	return table.Money(a.Fixed(e.book.Places), e.book.Currency)
}

// each is a cell of money for one of so many.
func (e *earnings) each(a money.Amount, count int64) table.Cell {
	if count <= 0 {
		return table.Unknown()
	}
	return e.cash(a.MulFrac(1, count))
}

// sorted are the accounts of an enterprise with anything to tell, in the order
// of their values.
func (e *earnings) sorted(of cost.Enterprise) []*account {
	list := slices.DeleteFunc(slices.Clone(e.order[of]), func(a *account) bool { return a.isNone() && a.end == nil })
	slices.SortFunc(list, func(a, b *account) int {
		return slices.CompareFunc(a.values, b.values, orderOfValues)
	})
	return list
}

// orderOfValues puts values in order; none comes last.
func orderOfValues(a, b string) int {
	switch {
	case a == b:
		return 0
	case a == "":
		return 1
	case b == "":
		return -1
	}
	return naturally(a, b)
}

// groupCells are the cells of an account's values.
func (a *account) groupCells() []table.Cell {
	cells := make([]table.Cell, len(a.values))
	for i, v := range a.values {
		cells[i] = textOrUnknown(v)
	}
	return cells
}

// rounded rounds the figures of a column so that they add up to a sum that is
// rounded already, or, where the rows are filtered, to their own.
func (p *profitDoc) rounded(list []*account, of func(*account) money.Amount, sum money.Amount) []money.Amount {
	parts := make([]money.Amount, len(list))
	for i, a := range list {
		parts[i] = of(a)
	}
	if len(p.options.Filters) > 0 {
		return money.RoundParts(parts, p.book.Places)
	}
	return roundedTo(parts, sum, p.book.Places)
}

// trees are the rows of the nursery's own enterprise.
func (p *profitDoc) trees() table.Table {
	list := slices.DeleteFunc(p.sorted(cost.Trees), func(a *account) bool { return !a.hasRow() })
	w := &p.balance[cost.Trees]
	revenue := p.rounded(list, func(a *account) money.Amount { return a.revenue }, w.revenue)
	sold := p.rounded(list, func(a *account) money.Amount { return a.load.Cost() }, w.sold)
	closing := p.rounded(list, func(a *account) money.Amount { return a.closing.Cost() }, w.closing)
	t := table.Table{Name: "rows", Title: "Trees and plants", Grouped: true, Columns: append(groupColumns(p.options.By), p.treeColumns(list)...)}
	all := account{}
	for i, a := range list {
		all.add(a)
		if p.byMonth() && a.values[0] == "" {
			continue // what stands at the end is told of the last month
		}
		t.Rows = append(t.Rows, append(a.groupCells(), p.treeCells(a, revenue[i], sold[i], closing[i])...))
	}
	if len(list) != 1 {
		t.Total = append(p.totalCells(), p.treeCells(&all, money.Sum(revenue...), money.Sum(sold...), money.Sum(closing...))...)
	}
	return t
}

// hasRow reports whether anything is told of a group of trees.
func (a *account) hasRow() bool {
	return a.sold != 0 || a.returned != 0 || a.onHand != 0 || a.revenue != (money.Amount{}) || a.closing != (cost.Load{}) || a.end != nil
}

// add adds up the figures of a row of trees.
func (a *account) add(b *account) {
	a.sold, a.returned = a.sold+b.sold, a.returned+b.returned
	a.onHand, a.living, a.again = a.onHand+b.onHand, a.living+b.living, a.again+b.again
	a.mass, a.revenue = a.mass.Add(b.mass), a.revenue.Add(b.revenue)
	a.load, a.closing = a.load.Plus(b.load), a.closing.Plus(b.closing)
	a.carried, a.lost = a.carried.Add(b.carried), a.lost.Plus(b.lost)
}

func (p *profitDoc) treeColumns(list []*account) []table.Column {
	returned, wanted := table.Machines, table.Machines
	if slices.ContainsFunc(list, func(a *account) bool { return a.returned > 0 }) {
		returned = table.Everyone
	}
	if p.options.Margin > 0 {
		wanted = table.Everyone
	}
	return []table.Column{
		{Name: "sold", Kind: table.KindCount},
		{Name: "returned", Heading: "came back", Kind: table.KindCount, Spare: 8, For: returned},
		{Name: "revenue", Kind: table.KindMoney},
		{Name: "cost_of_sold", Heading: "cost of sold", Kind: table.KindMoney},
		{Name: "margin", Kind: table.KindMoney},
		{Name: "on_hand", Kind: table.KindCount},
		{Name: "closing_cost", Heading: "at cost", Kind: table.KindMoney},
		{Name: "margin_each", Kind: table.KindMoney, Spare: 1},
		{Name: "price_each", Heading: "price", Kind: table.KindMoney, Spare: 7},
		{Name: "cost_each", Kind: table.KindMoney, Spare: 7},
		{Name: "living", Kind: table.KindCount, For: table.Machines},
		{Name: "cost_per_saleable", Heading: "cost a tree", Kind: table.KindMoney, Spare: 2},
		{Name: "break_even", Heading: "breaks even at", Kind: table.KindMoney, Spare: 3},
		{Name: "wanted_price", Heading: fmt.Sprintf("leaves %d %% at", p.options.Margin), Kind: table.KindMoney, Spare: 3, For: wanted},
		{Name: "point_of_take", Heading: "a point of take", Kind: table.KindMoney, Spare: 6},
		{Name: "hours", Kind: table.KindQuantity, Unit: "h", For: table.Machines},
		{Name: "margin_per_hour", Heading: "margin an hour", Kind: table.KindMoney, Spare: 4},
		{Name: "m2_months", Kind: table.KindQuantity, Unit: "m2-months", For: table.Machines},
		{Name: "margin_per_m2_month", Heading: "a m2-month", Kind: table.KindMoney, Spare: 5},
	}
}

// treeCells are the figures of a row; what must add up is rounded already.
func (p *profitDoc) treeCells(a *account, revenue, sold, closing money.Amount) []table.Cell {
	margin := revenue.Sub(sold)
	hours, space := a.load[cost.Hours], monthsOf(a.load[cost.Space])
	each, even, wanted := p.pricesOf(a)
	if a.values == nil { // the total has stocks among the trees
		each, even, wanted = table.Unknown(), table.Unknown(), table.Unknown()
	}
	onHand, atCost := table.Count(a.onHand), p.cash(closing)
	if a.end != nil {
		onHand, atCost = table.Count(a.end.plants), p.cash(a.end.cost)
	} else if a.onHand == 0 && a.closing == (cost.Load{}) && slices.ContainsFunc(p.facets, func(f facet) bool { return f.passing }) {
		onHand, atCost = table.Unknown(), table.Unknown()
	}
	return []table.Cell{
		table.Count(a.sold), table.Count(a.returned), p.cash(revenue), p.cash(sold), p.cash(margin), onHand, atCost,
		p.each(margin, a.sold), p.each(revenue, a.sold), p.each(sold, a.sold), table.Count(a.living),
		each, even, wanted, p.pointOf(a),
		table.Quantity(hours.Fixed(2)), p.over(margin, hours), table.Quantity(space.Fixed(2)), p.over(margin, space),
	}
}

// over is money for each of so much of something measured.
func (e *earnings) over(a, by money.Amount) table.Cell {
	q, ok := a.Over(by)
	if !ok {
		return table.Unknown()
	}
	return e.cash(q)
}

// monthsOf turns square metre-days into square metre-months, a month being a
// twelfth of 365 days.
func monthsOf(space money.Amount) money.Amount { return space.MulFrac(12, 365) }

// fruit is what the standing trees brought in and what was spent on them.
func (p *profitDoc) fruit() table.Table {
	list := p.sorted(cost.Fruit)
	w := &p.balance[cost.Fruit]
	revenue := p.rounded(list, func(a *account) money.Amount { return a.revenue }, w.revenue)
	spent := p.rounded(list, func(a *account) money.Amount { return a.load.Cost() }, w.sold)
	byNumber := someOr(slices.ContainsFunc(list, func(a *account) bool { return a.sold > 0 }))
	t := table.Table{Name: "fruit", Title: "Fruit", Grouped: true, Columns: append(groupColumns(p.options.By),
		table.Column{Name: "kg", Kind: table.KindQuantity, Unit: "kg"},
		table.Column{Name: "sold", Heading: "by number", Kind: table.KindCount, Spare: 2, For: byNumber},
		table.Column{Name: "revenue", Kind: table.KindMoney},
		table.Column{Name: "cost", Kind: table.KindMoney},
		table.Column{Name: "margin", Kind: table.KindMoney},
		table.Column{Name: "hours", Kind: table.KindQuantity, Unit: "h", Spare: 3},
		table.Column{Name: "margin_per_hour", Heading: "margin an hour", Kind: table.KindMoney, Spare: 1})}
	cells := func(a *account, revenue, spent money.Amount) []table.Cell {
		margin := revenue.Sub(spent)
		return []table.Cell{table.Quantity(a.mass.String()), table.Count(a.sold), p.cash(revenue), p.cash(spent), p.cash(margin),
			table.Quantity(a.load[cost.Hours].Fixed(2)), p.over(margin, a.load[cost.Hours])}
	}
	all := account{}
	for i, a := range list {
		t.Rows = append(t.Rows, append(a.groupCells(), cells(a, revenue[i], spent[i])...))
		all.add(a)
	}
	if len(list) > 1 {
		t.Total = append(p.totalCells(), cells(&all, money.Sum(revenue...), money.Sum(spent...))...)
	}
	return t
}

// someOr shows a column to people only where there is something in it.
func someOr(something bool) table.Audience {
	if something {
		return table.Everyone
	}
	return table.Machines
}

func (p *profitDoc) totalCells() []table.Cell {
	total := make([]table.Cell, len(p.options.By))
	total[0] = table.Text("all")
	return total
}

// wood is scions, cuttings and bought seed.
func (p *profitDoc) wood() table.Table {
	list := p.sorted(cost.Wood)
	w := &p.balance[cost.Wood]
	revenue := p.rounded(list, func(a *account) money.Amount { return a.revenue }, w.revenue)
	sold := p.rounded(list, func(a *account) money.Amount { return a.load.Cost() }, w.sold)
	used := p.rounded(list, func(a *account) money.Amount { return a.carried }, w.used)
	lost := p.rounded(list, func(a *account) money.Amount { return a.lost.Cost() }, w.lost)
	closing := p.rounded(list, func(a *account) money.Amount { return a.closing.Cost() }, w.closing)
	traded := someOr(slices.ContainsFunc(list, func(a *account) bool { return a.sold > 0 }))
	t := table.Table{Name: "wood", Title: "Wood and seed", Grouped: true, Columns: append(groupColumns(p.options.By),
		table.Column{Name: "sold", Kind: table.KindCount, For: traded},
		table.Column{Name: "revenue", Kind: table.KindMoney, For: traded},
		table.Column{Name: "cost_of_sold", Heading: "cost of sold", Kind: table.KindMoney, For: traded},
		table.Column{Name: "margin", Kind: table.KindMoney, For: traded},
		table.Column{Name: "used", Heading: "into plants", Kind: table.KindMoney},
		table.Column{Name: "lost", Heading: "left over", Kind: table.KindMoney},
		table.Column{Name: "closing_cost", Heading: "at cost", Kind: table.KindMoney})}
	cells := func(a *account, sums ...money.Amount) []table.Cell {
		return []table.Cell{table.Count(a.sold), p.cash(sums[0]), p.cash(sums[1]), p.cash(sums[0].Sub(sums[1])), p.cash(sums[2]), p.cash(sums[3]), p.cash(sums[4])}
	}
	all := account{}
	for i, a := range list {
		t.Rows = append(t.Rows, append(a.groupCells(), cells(a, revenue[i], sold[i], used[i], lost[i], closing[i])...))
		all.add(a)
	}
	if len(list) > 1 {
		t.Total = append(p.totalCells(), cells(&all, money.Sum(revenue...), money.Sum(sold...), money.Sum(used...), money.Sum(lost...), money.Sum(closing...))...)
	}
	return t
}
