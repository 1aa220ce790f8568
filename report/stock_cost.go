package report

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/cost"
	"github.com/budstick/budstick/report/money"
	"github.com/budstick/budstick/report/table"
)

// stockCost is what the plants of each lot carry. Where the money of a journal
// can't be added up, the book is nil and refused says why, or is empty where the
// farm reckons in no money.
type stockCost struct {
	book    *cost.Book
	of      map[*nursery.Lot]cost.Standing
	refused string
}

func stockAtCost(n *nursery.Nursery, o Options) stockCost {
	c := stockCost{of: map[*nursery.Lot]cost.Standing{}}
	book, err := cost.Ready(n).Follow(cost.Terms{AsAt: o.AsAt}, func(*cost.Flow) {})
	if err != nil {
		if n.Farm != nil && n.Farm.Currency != "" {
			c.refused = err.Error()
		}
		return c
	}
	c.book = book
	for _, s := range book.Standing {
		if s.Lot != nil {
			c.of[s.Lot] = s
		}
	}
	return c
}

// stockClosing is what the plants of each lot carried when a book was closed, for
// a nursery that was replayed up to that day.
func stockClosing(n *nursery.Nursery, book *cost.Book) stockCost {
	c := stockCost{book: book, of: map[*nursery.Lot]cost.Standing{}}
	for _, s := range book.Standing {
		if s.Lot == nil {
			continue
		}
		if t, ok := n.Thing(s.Lot.Name); ok {
			if l, ok := t.(*nursery.Lot); ok {
				c.of[l] = s
			}
		}
	}
	return c
}

// part is the average cost of the plants of a lot in one state.
func (c *stockCost) part(l *nursery.Lot, s fact.State) money.Amount {
	standing := c.of[l]
	if standing.N == 0 {
		return money.Amount{}
	}
	return standing.Load.Cost().MulFrac(int64(l.On[s]), standing.N)
}

// column is shown to people only where something was spent.
func (c *stockCost) column() table.Column {
	shown := table.Machines
	for _, s := range c.of {
		if s.Load.Cost() != (money.Amount{}) {
			shown = table.Everyone
		}
	}
	return table.Column{Name: "cost", Heading: "at cost", Kind: table.KindMoney, For: shown}
}

// cells are the costs of rows, in cents that add up, and their sum.
func (c *stockCost) cells(parts []money.Amount) (cells []table.Cell, sum table.Cell) {
	cells = make([]table.Cell, len(parts))
	if c.book == nil {
		return cells, table.Unknown()
	}
	rounded := money.RoundParts(parts, c.book.Places)
	for i, a := range rounded {
		cells[i] = table.Money(a.Fixed(c.book.Places), c.book.Currency)
	}
	return cells, table.Money(money.Sum(rounded...).Fixed(c.book.Places), c.book.Currency)
}
