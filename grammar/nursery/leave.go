package nursery

import (
	"fmt"
	"math/big"
	"strconv"

	"github.com/budstick/budstick/grammar/fact"
)

// leave takes plants, wood or fruit out of the nursery.
func (n *Nursery) leave(f *fact.Leave) {
	t, ok := n.thing(f.Of)
	if !ok {
		return
	}
	lot, isLot := t.(*Lot)
	bundle, isBundle := t.(*Bundle)
	parts := f.Noun == fact.Fruit || f.Noun == fact.Scions || f.Noun == fact.Sticks
	switch {
	case f.State != fact.AnyState && !isLot:
		n.refuse(f.Of.Span, "wrong-kind", fmt.Sprintf("%s is %s; only plants of a lot are %s", t.Label(), kindOf(t), f.State), t.Label())
	case !parts && !isBundle && !n.agree(t.Label(), standsAt(t)):
	case f.Noun == fact.Fruit:
		n.fruitLeaves(f, t)
	case isBundle:
		n.woodLeaves(f, bundle)
	case parts:
		n.freshWoodLeaves(f, t)
	case isLot:
		n.lotLeaves(f, lot)
	default:
		n.treeLeaves(f, t)
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

// priced refuses a price for each that does not make the total. Of fruit by
// weight the total may be rounded, as far as it is written.
func (n *Nursery) priced(f *fact.Leave, count int32) bool {
	p := f.Price
	if !p.Each.Given || !p.Total.Given {
		return true
	}
	many, what := big.NewRat(int64(count), 1), strconv.Itoa(int(count))
	if f.Quantity.Given {
		many, what = rat(f.Quantity.Value), f.Quantity.Value.String()+" "+string(f.Quantity.Unit)
	}
	sum := many.Mul(many, rat(p.Each.Amount))
	off := new(big.Rat).Sub(sum, rat(p.Total.Amount))
	tolerance := new(big.Rat)
	if f.Quantity.Given { // half of the last digit
		tolerance = rat(fact.Decimal{Coef: 5, Scale: p.Total.Amount.Scale + 1})
	}
	if p.Each.Currency == p.Total.Currency && off.Abs(off).Cmp(tolerance) <= 0 {
		return true
	}
	n.refuse(p.Total.Span, "price-sum", fmt.Sprintf("%s at %s make %s, not %s; mend one of them, or leave one out",
		what, p.Each.Amount, written(sum), p.Total.Amount))
	return false
}

// written writes an exact sum with two decimals, or as many as it needs.
func written(sum *big.Rat) string {
	digits, exact := sum.FloatPrec()
	if !exact {
		digits = 2
	}
	return sum.FloatString(max(digits, 2))
}

func rat(d fact.Decimal) *big.Rat {
	scale := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(d.Scale)), nil)
	return new(big.Rat).SetFrac(big.NewInt(d.Coef), scale)
}

// fruitLeaves checks that fruit is of something that bears.
func (n *Nursery) fruitLeaves(f *fact.Leave, t Thing) {
	switch tree, isTree := t.(*Tree); {
	case TreeOf(t) == nil:
		n.refuse(f.Of.Span, "wrong-kind", fmt.Sprintf("fruit is of a tree, and %s is %s", t.Label(), kindOf(t)), t.Label())
	case isTree && !n.oneTop(tree, f.Of.Span, "fruit"):
	default:
		n.priced(f, f.Count.N)
	}
}

// woodLeaves takes scions or seed out of a bundle; what is more than was cut is
// for a rule to warn of.
func (n *Nursery) woodLeaves(f *fact.Leave, b *Bundle) {
	if !n.cutBefore(b, f.Of.Span) {
		return
	}
	count := f.Count.N
	if left, known := b.Left(); !f.Count.Given {
		if known && left <= 0 {
			n.refuse(f.Of.Span, "empty-lot", fmt.Sprintf("nothing of %s is left to be %s", b.Name, f.How), b.Name)
			return
		}
		count = max(left, 0)
	}
	if !n.priced(f, count) || !n.canUse(f.Of.Span, []Source{{Thing: b}}, int64(count)) {
		return
	}
	b.About = b.About || f.Count.About
	n.draw(f.How, b, count)
}

// freshWoodLeaves is wood that goes straight from the tree.
func (n *Nursery) freshWoodLeaves(f *fact.Leave, t Thing) {
	_, ok := n.woodOf(t, f.Of)
	from := []Source{{Thing: t}}
	if ok && n.priced(f, f.Count.N) && n.canUse(f.Count.Span, from, int64(f.Count.N)) {
		n.use(f.How, from, f.Count.N)
	}
}

func (n *Nursery) treeLeaves(f *fact.Leave, t Thing) {
	tree, ok := t.(*Tree)
	switch {
	case !ok:
		n.refuse(f.Of.Span, "wrong-kind", fmt.Sprintf("%s is %s; name the lot or tree", t.Label(), kindOf(t)), t.Label())
	case f.Count.Given && f.Count.N != 1:
		n.refuse(f.Count.Span, "too-many", fmt.Sprintf("%s is one tree", tree.Name), tree.Name)
	case n.standsNow(tree, f.Of.Span) && n.priced(f, 1):
		n.treeGoes(tree, f.How)
	}
}

func (n *Nursery) lotLeaves(f *fact.Leave, l *Lot) {
	out := f.How == fact.Lost || f.How == fact.Culled
	switch {
	case !n.begun(l, f.Of):
		return
	case l.Limbs && !out:
		n.refuse(f.Of.Span, "wrong-kind", fmt.Sprintf("%s is limbs of %s, which can't be %s", l.Name, l.Mother.Name, f.How), l.Name)
		return
	case f.State == fact.Attached && !out && l.OnMother():
		n.refuse(f.Of.Span, "not-free", fmt.Sprintf("what is attached in %s still hangs on %s; sever it first", l.Name, l.Mother.Name), l.Name)
		return
	case f.Count.Given:
		state := orLiving(f.State)
		if !n.has(l, state, f.Count, f.How.String()) || !n.priced(f, f.Count.N) {
			return
		}
		l.About = l.About || f.Count.About
		n.exit(f.How, f.How, l, state, f.Count.N)
		return
	}
	n.wholeLeaves(f, l, out)
}

// wholeLeaves takes out all of a lot, or all of a state; what still hangs on
// the mother can be lost but not sold.
func (n *Nursery) wholeLeaves(f *fact.Leave, l *Lot, out bool) {
	var going [fact.States]int32
	all := int32(0)
	for s := fact.Waiting; s < fact.States; s++ {
		if f.State == fact.AnyState || s == f.State {
			going[s] = l.Free(s)
			if out {
				going[s] = l.On[s]
			}
			all += going[s]
		}
	}
	if all == 0 {
		n.refuse(f.Of.Span, "empty-lot", fmt.Sprintf("nothing of %s is left to be %s; on this day it holds %s", l.Name, f.How, l.states()), l.Name)
		return
	}
	if !n.priced(f, all) {
		return
	}
	for s, count := range going {
		n.exit(f.How, f.How, l, fact.State(s), count)
	}
}

// treeGoes takes a tree out, and with it what hangs on it.
func (n *Nursery) treeGoes(t *Tree, how fact.How) {
	t.Gone, t.GoneDay, t.GoneBy = how, n.now.Day(), n.now
	for _, l := range t.Layers {
		for s := fact.Waiting; s < fact.States; s++ {
			if l.hangs(s) {
				n.exit(fact.Lost, fact.Lost, l, s, l.On[s])
			}
		}
	}
	for _, l := range t.Tops {
		for s := fact.Waiting; s < fact.States; s++ {
			n.exit(fact.Lost, fact.Lost, l, s, l.On[s])
		}
	}
}
