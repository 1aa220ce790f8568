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

// balance rounds the terms of each enterprise to the cent so that they add up:
// opening and spent are all the others together. What stands is rounded for
// itself, so that what stands at the end of a season stands at the beginning of
// the next; what was spent and what came in are differences of sums since the
// journal began, so that seasons add up to years. What went out is rounded by
// largest remainder, and the largest of it makes up for the other roundings.
func (e *earnings) balance() (list [cost.Enterprises]balanceSheet) {
	for i := range list {
		w := &e.whole[i]
		cent := func(a money.Amount) money.Amount { return a.Round(e.book.Places, money.HalfEven) }
		since := func(of func(*terms) money.Amount) money.Amount { return cent(of(&w.after)).Sub(cent(of(&w.before))) }
		b := balanceSheet{
			opening: cent(w.before.standing()), closing: cent(w.after.standing()),
			spent:   since(func(t *terms) money.Amount { return t.spent }),
			revenue: since(func(t *terms) money.Amount { return t.revenue }),
		}
		out := make([]money.Amount, 0, 6)
		for k, a := range w.after.out() {
			out = append(out, a.Sub(w.before.out()[k]))
		}
		want := b.opening.Add(b.spent).Sub(b.closing)
		if money.Sum(out...) == (money.Amount{}) {
			b.spent, want = b.closing.Sub(b.opening), money.Amount{}
		}
		out = roundedTo(out, want, e.book.Places)
		b.used, b.sold, b.given, b.planted, b.lost, b.unallocated = out[0], out[1], out[2], out[3], out[4], out[5]
		list[i] = b
	}
	return list
}

// out are the terms of what went out.
func (t *terms) out() [6]money.Amount {
	return [...]money.Amount{t.used, t.sold, t.given, t.planted, t.lost, t.unallocated}
}

// standing is what came in and has not gone out.
func (t *terms) standing() money.Amount {
	out := t.out()
	return t.spent.Sub(money.Sum(out[:]...))
}

// roundedTo rounds parts so that they add up to a sum that is rounded already,
// and may be off by a little: that goes to the largest part.
func roundedTo(parts []money.Amount, want money.Amount, places int) []money.Amount {
	parts = money.RoundParts(parts, places)
	if len(parts) == 0 {
		return parts
	}
	largest := 0
	for i, a := range parts {
		if abs(a).Cmp(abs(parts[largest])) > 0 {
			largest = i
		}
	}
	parts[largest] = parts[largest].Add(want.Sub(money.Sum(parts...)))
	return parts
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
