package report

import (
	"github.com/budstick/budstick/report/cost"
	"github.com/budstick/budstick/report/money"
	"github.com/budstick/budstick/report/table"
)

// balanceSheet is the terms of the identity of an enterprise, in cents that add
// up: opening and spent are all the others together.
type balanceSheet struct {
	opening, spent                                         money.Amount
	used, sold, given, planted, lost, unallocated, closing money.Amount
	revenue                                                money.Amount
}

// balance rounds the terms of each enterprise so that they add up.
func (e *earnings) balance() (list [cost.Enterprises]balanceSheet) {
	for i := range list {
		w, b := &e.whole[i], &list[i]
		in := money.RoundParts([]money.Amount{w.opening, w.spent.Add(w.movedIn())}, e.book.Places)
		out := money.RoundParts([]money.Amount{w.movedOut(), w.sold, w.given, w.planted, w.lost, w.unallocated, w.closing}, e.book.Places)
		b.opening, b.spent = in[0], in[1]
		b.used, b.sold, b.given, b.planted, b.lost, b.unallocated, b.closing = out[0], out[1], out[2], out[3], out[4], out[5], out[6]
		b.revenue = w.revenue.Round(e.book.Places, money.HalfEven)
	}
	return list
}

// movedIn and movedOut are what wood brought into plants and limbs, as seen by
// those and by the wood.
func (w *sums) movedIn() money.Amount {
	if w.moved.Sign() > 0 {
		return w.moved
	}
	return money.Amount{}
}

func (w *sums) movedOut() money.Amount {
	if w.moved.Sign() < 0 {
		return w.moved.Neg()
	}
	return money.Amount{}
}

// result is what the enterprise earned: its revenue less what was sold, given
// away, lost or borne by nobody. What was planted is still there.
func (b *balanceSheet) result() money.Amount {
	return b.revenue.Sub(b.sold).Sub(b.given).Sub(b.lost).Sub(b.unallocated)
}

// identity says where the money of the plants went.
func (p *profitDoc) identity() table.Facts {
	b := &p.balance[cost.Trees]
	fact := func(name, heading string, a money.Amount) table.Fact {
		return table.Fact{Name: name, Heading: heading, Value: p.cash(a)}
	}
	return table.Facts{Name: "identity", Title: "Where the money for plants went", Items: []table.Fact{
		fact("opening", "stood at cost at the beginning", b.opening),
		fact("spent", "spent on them", b.spent),
		fact("sold", "cost of what was sold", b.sold),
		fact("given", "given away", b.given),
		fact("planted", "planted out", b.planted),
		fact("abnormal_loss", "lost beyond what is normal", b.lost),
		fact("unallocated", "shared costs with nothing to bear them", b.unallocated),
		fact("closing", "stands at cost at the end", b.closing),
	}}
}

// enterprises are trees, fruit and wood side by side.
func (p *profitDoc) enterprises() table.Table {
	t := table.Table{Name: "enterprises", Title: "The three enterprises", Columns: []table.Column{
		{Name: "enterprise", Kind: table.KindText, Group: true},
		{Name: "revenue", Kind: table.KindMoney},
		{Name: "opening", Kind: table.KindMoney, Spare: 2},
		{Name: "spent", Kind: table.KindMoney},
		{Name: "used", Kind: table.KindMoney, For: table.Machines},
		{Name: "sold", Heading: "cost of sold", Kind: table.KindMoney},
		{Name: "given", Kind: table.KindMoney, Spare: 4},
		{Name: "planted", Kind: table.KindMoney, Spare: 4},
		{Name: "abnormal_loss", Heading: "lost", Kind: table.KindMoney, Spare: 1},
		{Name: "unallocated", Kind: table.KindMoney, Spare: 5},
		{Name: "closing", Kind: table.KindMoney, Spare: 2},
		{Name: "result", Kind: table.KindMoney},
	}}
	cells := func(name string, b *balanceSheet) []table.Cell {
		cells := []table.Cell{table.Text(name)}
		for _, a := range []money.Amount{b.revenue, b.opening, b.spent, b.used, b.sold, b.given, b.planted, b.lost, b.unallocated, b.closing, b.result()} {
			cells = append(cells, p.cash(a))
		}
		return cells
	}
	var all balanceSheet
	for i := range p.balance {
		b := &p.balance[i]
		t.Rows = append(t.Rows, cells(cost.Enterprise(i).String(), b))
		all.add(b)
	}
	all.spent, all.used = all.spent.Sub(all.used), money.Amount{} // wood went from one to the other
	t.Total = cells("all", &all)
	return t
}

func (b *balanceSheet) add(o *balanceSheet) {
	b.revenue, b.opening, b.spent, b.used = b.revenue.Add(o.revenue), b.opening.Add(o.opening), b.spent.Add(o.spent), b.used.Add(o.used)
	b.sold, b.given, b.planted, b.lost = b.sold.Add(o.sold), b.given.Add(o.given), b.planted.Add(o.planted), b.lost.Add(o.lost)
	b.unallocated, b.closing = b.unallocated.Add(o.unallocated), b.closing.Add(o.closing)
}

// things are what was bought for longer, and how much of it is used up.
func (p *profitDoc) things() table.Table {
	t := table.Table{Name: "things", Title: "Bought for longer", Columns: []table.Column{
		{Name: "what", Kind: table.KindText},
		{Name: "bought", Kind: table.KindDate},
		{Name: "ends", Heading: "serves until", Kind: table.KindDate, Spare: 1},
		{Name: "cost", Kind: table.KindMoney},
		{Name: "worn", Heading: "used up", Kind: table.KindMoney},
		{Name: "left", Kind: table.KindMoney},
	}}
	first, last := p.options.Period().First, p.options.Period().Last
	if last == 0 {
		last = p.options.AsAt
	}
	for _, thing := range p.book.Things {
		if thing.Entry.Date > last {
			continue
		}
		worn := thing.WornBy(last)
		before := thing.WornBy(first - 1)
		if before == thing.Cost {
			continue // it was used up before
		}
		t.Add(table.Text(labelOfCost(thing.Entry)), table.Date(thing.Entry.Date.String()), table.Date(thing.Ends.String()),
			p.cash(thing.Cost), p.cash(worn.Sub(before)), p.cash(thing.Cost.Sub(worn)))
	}
	return t
}
