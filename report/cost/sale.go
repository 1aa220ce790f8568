package cost

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/money"
)

// leave books what is sold or given away: plants that have just moved out, or
// fruit, or a tree. Wood has been dealt with already, and so have losses.
func (f *follower) leave(e *fact.Entry, m *fact.Leave) {
	if f.out.kind != 0 {
		fl := f.outflow(e)
		if m.How == fact.Sold {
			fl.Revenue, fl.Written = f.revenue(e, m, f.out.n)
			for s := range fl.Supposed {
				x := &fl.Supposed[s]
				x.Revenue = fl.Revenue.MulFrac(x.N, f.out.n*fine)
			}
		}
		f.emit(fl)
		return
	}
	t, ok := f.n.Thing(m.Of.Text)
	if !ok {
		return
	}
	switch {
	case m.Noun == fact.Fruit && m.How == fact.Sold:
		f.sellAlone(e, m, Fruit, fruitOf(t))
	case m.Noun == fact.Fruit:
	case m.Noun == fact.Scions || m.Noun == fact.Sticks:
		if _, cut := t.(*nursery.Bundle); !cut && m.How == fact.Sold { // straight from the tree
			f.sellAlone(e, m, Wood, t)
		}
	default:
		if tree, ok := t.(*nursery.Tree); ok && tree.GoneBy == e {
			f.treeLeaves(e, m, tree)
		}
	}
}

// sellAlone books a sale of what carries no cost.
func (f *follower) sellAlone(e *fact.Entry, m *fact.Leave, of Enterprise, t nursery.Thing) {
	fl := Flow{Kind: Sold, Enterprise: of, Day: f.day(e), Thing: t, Entry: e, N: int64(m.Count.N)}
	fl.Revenue, fl.Written = f.revenue(e, m, fl.N)
	f.emit(fl)
}

// treeLeaves is a tree that is dug up and sold or given away. What it cost until
// it was planted comes back for that.
func (f *follower) treeLeaves(e *fact.Entry, m *fact.Leave, t *nursery.Tree) {
	kind, ok := map[fact.How]Kind{fact.Sold: Sold, fact.Given: Given}[m.How]
	if !ok {
		return
	}
	fl := Flow{Kind: kind, Day: f.day(e), Thing: t, State: t.State, Entry: e, N: 1}
	if p := f.planted[t.Made]; p != nil {
		fl.Load = p.take(1)
		f.emit(Flow{Kind: Planted, Day: fl.Day, Thing: t, Entry: e, N: -1, Load: Load{}.Minus(fl.Load)})
	}
	if kind == Sold {
		fl.Revenue, fl.Written = f.revenue(e, m, 1)
	}
	f.emit(fl)
}

// plant books plants that are set out.
func (f *follower) plant(e *fact.Entry, m *fact.Plant) {
	f.plantOut(e)
	if f.out.kind != 0 && m.As.Given() {
		p := &pool{}
		p.put(f.out.n, &f.out.load)
		f.planted[e] = p
	}
}

// plantOut books plants that are no stock of the nursery any more.
func (f *follower) plantOut(e *fact.Entry) {
	if f.out.kind != 0 {
		f.emit(f.outflow(e))
	}
}

// outflow is the plants that the entry has moved out.
func (f *follower) outflow(e *fact.Entry) Flow {
	out := &f.out
	return Flow{Kind: out.kind, Day: f.day(e), Thing: f.lots[out.lot].lot, State: out.state, Entry: e, N: out.n, Load: out.load, Supposed: f.supposed}
}

// takeBack books the money that is given back for plants that return.
func (f *follower) takeBack(e *fact.Entry, m *fact.Return) {
	t, ok := f.n.Thing(m.Of.Text)
	if !ok {
		return
	}
	fl := Flow{Kind: Returned, Day: f.day(e), Thing: t, State: m.State, Entry: e, N: int64(m.Count.N), Revenue: f.amount(e, m.Total).Neg(), Written: f.written(e, m.Total)}
	fl.Written.Amount = fl.Written.Amount.Neg()
	f.emit(fl)
}

// fruitOf is the tree that fruit is of; that of a lot which is no tree is its own.
func fruitOf(t nursery.Thing) nursery.Thing {
	if tree := nursery.TreeOf(t); tree != nil {
		return tree
	}
	return t
}

// revenue is what a sale brings in, in the farm's own money: what is written on
// it, else the price that the journal declares. It is a sum in coins of the
// currency that it was asked in.
func (f *follower) revenue(e *fact.Entry, m *fact.Leave, count int64) (money.Amount, Written) {
	price := m.Price
	switch {
	case price.Total.Given:
		total, _ := f.exact(e, price.Total.Amount)
		return f.asked(e, total, price.Total.Currency)
	case !price.Each.Given:
		q, ok := f.n.Listed(e, m, f.out.state)
		if !ok {
			f.book.Doubts.Unpriced = append(f.book.Doubts.Unpriced, e)
			return money.Amount{}, Written{}
		}
		f.book.Doubts.Listed = append(f.book.Doubts.Listed, e)
		price.Each = q.Each
	}
	each, _ := f.exact(e, price.Each.Amount)
	total := each.MulInt(count)
	if m.Quantity.Given {
		if by, err := money.Decimal(m.Quantity.Value.Coef, int(m.Quantity.Value.Scale)); err == nil {
			total = each.Mul(by)
		}
	}
	return f.asked(e, total, price.Each.Currency)
}

// asked is a sum that is asked for, in coins of its currency, in the farm's own
// money and as it stands.
func (f *follower) asked(e *fact.Entry, total money.Amount, currency string) (money.Amount, Written) {
	total = f.coins(total, currency)
	if currency == "" {
		currency = f.home
	}
	return f.own(e, total, currency), Written{total, currency}
}
