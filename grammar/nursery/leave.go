package nursery

import (
	"fmt"
	"math/big"

	"github.com/budstick/budstick/grammar/fact"
)

// leave takes plants, wood or fruit out of the nursery.
func (n *Nursery) leave(f *fact.Leave) {
	t, ok := n.thing(f.Of)
	if !ok {
		return
	}
	if !n.pricesAgree(f.Price, f.Count) {
		return
	}
	switch {
	case f.Noun == fact.Fruit:
		n.fruitLeaves(f, t)
	case isBundle(t):
		n.woodLeaves(f, t.(*Bundle))
	case f.Noun == fact.Scions || f.Noun == fact.Sticks:
		n.freshWoodLeaves(f, t)
	default:
		n.plantsLeave(f, t)
	}
	if n.refused {
		return
	}
	if f.How == fact.Lost {
		n.cause(f.To)
	} else {
		n.party(f.To)
	}
}

func isBundle(t Thing) bool { _, ok := t.(*Bundle); return ok }

// pricesAgree refuses a price for each that does not make the total.
func (n *Nursery) pricesAgree(p fact.Price, count fact.Count) bool {
	if !p.Each.Given || !p.Total.Given || !count.Given || p.Per != "" {
		return true
	}
	each, total := rat(p.Each.Amount), rat(p.Total.Amount)
	sum := new(big.Rat).Mul(each, new(big.Rat).SetInt64(int64(count.N)))
	if sum.Cmp(total) == 0 && p.Each.Currency == p.Total.Currency {
		return true
	}
	n.refuse(p.Total.Span, "price-sum", fmt.Sprintf("%d at %s each make %s, not %s; mend one of them, or leave one out",
		count.N, p.Each.Amount, sum.FloatString(2), p.Total.Amount))
	return false
}

func rat(d fact.Decimal) *big.Rat {
	scale := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(d.Scale)), nil)
	return new(big.Rat).SetFrac(big.NewInt(d.Coef), scale)
}

// fruitLeaves checks that fruit is of something that bears.
func (n *Nursery) fruitLeaves(f *fact.Leave, t Thing) {
	switch t := t.(type) {
	case *Tree, *Limb:
	case *Lot:
		if t.Limbs {
			return
		}
		n.refuse(f.Of.Span, "wrong-kind", fmt.Sprintf("fruit is of a tree, and %s is a lot of plants", t.Name), t.Name)
	default:
		n.refuse(f.Of.Span, "wrong-kind", fmt.Sprintf("fruit is of a tree, and %s is %s", t.Label(), kindOf(t)), t.Label())
	}
}

// woodLeaves takes scions or seed out of a bundle; what is more than was cut is
// for a rule to warn of.
func (n *Nursery) woodLeaves(f *fact.Leave, b *Bundle) {
	if !n.cutBefore(b, f.Of.Span) {
		return
	}
	count := f.Count.N
	if !f.Count.Given {
		left, known := b.Left()
		if !known {
			left = 0
		}
		count = max(left, 0)
	}
	n.draw(f.How, b, count)
}

// freshWoodLeaves is wood that goes straight from the tree.
func (n *Nursery) freshWoodLeaves(f *fact.Leave, t Thing) {
	if _, ok := n.woodOf(t, f.Of); ok {
		credit(t, f.Count.N)
	}
}

func (n *Nursery) plantsLeave(f *fact.Leave, t Thing) {
	switch t := t.(type) {
	case *Tree:
		if f.Count.Given && f.Count.N != 1 {
			n.refuse(f.Count.Span, "too-many", fmt.Sprintf("%s is one tree", t.Name), t.Name)
			return
		}
		if n.stands(t, f.Of.Span) {
			n.treeGoes(t, f.How)
		}
	case *Lot:
		if t.Limbs && f.How != fact.Lost && f.How != fact.Culled {
			n.refuse(f.Of.Span, "wrong-kind", fmt.Sprintf("%s is limbs of %s, which can't be %s", t.Name, t.Mother.Name, f.How), t.Name)
			return
		}
		n.agree(t)
		if !n.refused {
			n.lotLeaves(f, t)
		}
	default:
		n.refuse(f.Of.Span, "wrong-kind", fmt.Sprintf("%s is %s; name the lot or tree", t.Label(), kindOf(t)), t.Label())
	}
}

func (n *Nursery) lotLeaves(f *fact.Leave, l *Lot) {
	if f.State == fact.Attached && f.How != fact.Lost && f.How != fact.Culled {
		n.refuse(f.Of.Span, "not-free", fmt.Sprintf("what is attached in %s still hangs on %s; sever it first", l.Name, l.Mother.Name), l.Name)
		return
	}
	if f.Count.Given {
		state := orLiving(f.State)
		if n.has(l, state, f.Count, f.How.String()) {
			n.takeOut(f.How, l, state, f.Count.N)
		}
		return
	}
	moved := int32(0)
	for s := fact.Waiting; s < fact.States; s++ {
		if f.State != fact.AnyState && s != f.State {
			continue
		}
		count := l.Free(s)
		if f.How == fact.Lost || f.How == fact.Culled {
			count = l.On[s]
		}
		n.takeOut(f.How, l, s, count)
		moved += count
	}
	if moved == 0 {
		n.refuse(f.Of.Span, "empty-lot", fmt.Sprintf("nothing of %s is left to be %s; on this day it holds %s", l.Name, f.How, l.states()), l.Name)
	}
}

// takeOut takes plants of one state out.
func (n *Nursery) takeOut(how fact.How, l *Lot, s fact.State, count int32) {
	leftBefore(l, s, count)
	n.exit(how, how, l, s, count)
	l.settleBare()
}

// treeGoes takes a tree out, and with it what hangs on it.
func (n *Nursery) treeGoes(t *Tree, how fact.How) {
	t.Gone, t.GoneDay, t.GoneBy = how, n.now.Day(), n.now
	for _, l := range t.Layers {
		for _, s := range []fact.State{fact.Waiting, fact.Attached, fact.Failed} {
			if s == fact.Failed && l.Free(s) > 0 {
				continue // stocks of an approach graft stand on their own roots
			}
			n.takeOut(fact.Lost, l, s, l.On[s])
		}
	}
	for _, l := range t.Tops {
		for s := fact.Waiting; s < fact.States; s++ {
			n.takeOut(fact.Lost, l, s, l.On[s])
		}
	}
}
