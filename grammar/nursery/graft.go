package nursery

import (
	"fmt"

	"github.com/budstick/budstick/grammar/fact"
	spelling "github.com/budstick/budstick/grammar/name"
)

// stocks is what a graft works: plants or limbs, and what is known of them.
type stocks struct {
	from    *Lot  // nil where limbs of a tree are worked for the first time
	tree    *Tree // of limbs
	state   fact.State
	on      []Identity // what the new top will stand on, from the union down
	mixed   bool       // some of them stand on something else
	ordinal int
	atLeast bool
}

func (n *Nursery) graft(f *fact.Graft) {
	st, ok := n.stocks(f)
	if !ok {
		return
	}
	if f.Into.Given() {
		n.inarch(f, st)
		return
	}
	top, wood, ok := n.wood(f.With)
	if !ok {
		return
	}
	var inter []Source
	if f.Over.Given() {
		id, list, ok := n.wood([]fact.Name{f.Over})
		if !ok {
			return
		}
		inter = list
		st.on = append([]Identity{id}, st.on...)
	}
	each := int32(1)
	if f.Scions.Given {
		each = f.Scions.N
	}
	mother, ok := n.approached(f, st, wood)
	if !ok || !n.canUse(f.Count.Span, wood, int64(f.Count.N)*int64(each)) || !n.canUse(f.Count.Span, inter, int64(f.Count.N)) || !n.free(f.As) {
		return
	}
	l := n.makeLot(f.As, fact.Grafted)
	l.Top, l.Below, l.Wood, l.Inter, l.MixedBelow = top, st.on, wood, inter, st.mixed
	l.Beside, l.About = f.Beside, f.Count.About
	switch {
	case st.tree != nil:
		l.Mother, l.Limbs = st.tree, true
		st.tree.Tops = append(st.tree.Tops, l)
	case mother != nil:
		l.Mother = mother
		mother.Layers = append(mother.Layers, l)
	}
	b := n.makeBatch(GraftBatch, l, f.Count.N)
	b.From, b.Stock, b.Wood, b.Limbs = st.from, st.on[len(inter)], wood, l.Limbs
	b.Method, b.Ordinal, b.AtLeast, b.About = n.method(f.By), st.ordinal, st.atLeast, f.Count.About
	b.ScionsEach = each
	n.deadlines(b)
	n.use(fact.Grafted, wood, f.Count.N*each)
	n.use(fact.Grafted, inter, f.Count.N)
	n.takeStocks(st, l, f.Count.N)
}

// takeStocks moves the stocks into the lot of grafts.
func (n *Nursery) takeStocks(st stocks, l *Lot, count int32) {
	if st.from == nil {
		n.enter(fact.Grafted, l, fact.Waiting, count)
		return
	}
	l.Roots = []Source{{Thing: st.from}}
	if l.Place == nil {
		l.Place = st.from.Place
	}
	l.Pot = st.from.Pot
	n.passOn(fact.Grafted, st.from, st.state, l, fact.Waiting, count)
}

// approached is the tree that an approach graft's scions still hang on, or nil
// for all other grafts: cut wood hangs on nothing, and a limb that is worked so
// belongs to its own tree.
func (n *Nursery) approached(f *fact.Graft, st stocks, wood []Source) (*Tree, bool) {
	switch spelling.Fold(f.By.Text) {
	case "approach", "approach-graft", "inarch":
	default:
		return nil, true
	}
	tree := TreeOf(wood[0].Thing)
	if tree == nil || st.tree != nil {
		return nil, true
	}
	if len(wood) > 1 {
		n.refuse(f.With[1].Span, "wrong-kind", "the scions of an approach graft hang on one tree until they are severed; write one entry for each tree", wood[0].Label())
		return nil, false
	}
	return tree, n.standsNow(tree, f.With[0].Span)
}

// stocks finds what is worked and makes sure that there is enough of it.
func (n *Nursery) stocks(f *fact.Graft) (stocks, bool) {
	t, ok := n.thing(f.Of)
	if !ok {
		return stocks{}, false
	}
	switch t := t.(type) {
	case *Tree:
		if f.Noun != fact.Limbs {
			n.refuse(f.Of.Span, "wrong-kind", fmt.Sprintf("%s is a standing tree; say how many limbs are worked: graft %d limbs of %s", t.Name, f.Count.N, spell(t.Name)), t.Name)
			return stocks{}, false
		}
		on := t.On
		if t.State == fact.Living || len(on) == 0 {
			on = append([]Identity{t.Identity()}, t.On...)
		}
		return stocks{tree: t, on: on, ordinal: 1}, n.standsNow(t, f.Of.Span)
	case *Limb:
		on := append([]Identity{t.Identity()}, t.Tree.On...)
		return stocks{tree: t.Tree, on: on, ordinal: 1}, n.standsNow(t.Tree, f.Of.Span)
	case *Lot:
		return n.stocksOfLot(f, t)
	}
	n.refuse(f.Of.Span, "wrong-kind", fmt.Sprintf("%s is %s and can't be a stock; write the lot of stocks after of and the wood after with", t.Label(), kindOf(t)), t.Label())
	return stocks{}, false
}

func (n *Nursery) stocksOfLot(f *fact.Graft, l *Lot) (stocks, bool) {
	st := stocks{from: l, state: orLiving(f.State), mixed: l.MixedBelow, ordinal: l.Tries + 1, atLeast: l.AtLeast}
	switch {
	case !n.begun(l, f.Of):
		return st, false
	case f.Noun == fact.Limbs && !l.Limbs:
		n.refuse(f.Of.Span, "wrong-kind", fmt.Sprintf("%s is a lot of plants; limbs belong to a tree", l.Name), l.Name)
		return st, false
	case l.Limbs && !n.standsNow(l.Mother, f.Of.Span):
		return st, false
	case st.state == fact.Attached || !l.Limbs && l.Free(st.state) < l.On[st.state]:
		n.refuse(f.Of.Span, "not-free", fmt.Sprintf("what is %s in %s is no plant of its own yet and can't be grafted", st.state, l.Name), l.Name)
		return st, false
	case !n.has(l, st.state, f.Count, "grafted"):
		return st, false
	}
	if l.Limbs {
		st.tree = l.Mother
	}
	switch st.state {
	case fact.Living:
		st.on = append([]Identity{l.Top}, l.Below...)
	case fact.Failed:
		sure := false
		st.on, sure = l.Stump()
		st.mixed = st.mixed || !sure
	default: // the top is cut off unseen
		st.on = l.bare(false)
	}
	if st.state != fact.Living {
		st.ordinal, st.atLeast = l.worked()
		st.ordinal++
	}
	return st, true
}

// Stump is what stands below the dead tops of the failed plants of a lot, from
// the top down. It is not sure where some of them kept the interstock and some
// did not.
func (l *Lot) Stump() (on []Identity, sure bool) {
	kept := l.upper > 0 && l.upper == l.On[fact.Failed] && !l.blurred
	return l.bare(kept), kept || l.upper == 0 && !l.blurred
}

// bare is the plants of a lot without their top, and without the interstock
// that was set with it unless that lives. Plants on their own roots stay what
// they are.
func (l *Lot) bare(interLives bool) []Identity {
	switch {
	case len(l.Below) == 0:
		return []Identity{l.Top}
	case len(l.Inter) > 0 && !interLives:
		return l.Below[1:]
	}
	return l.Below
}

// worked is how often the failed plants of a lot have been grafted, or at least
// that often: the highest, where lots were joined.
func (l *Lot) worked() (times int, atLeast bool) {
	times, atLeast = max(l.Tries, l.ordinal), l.AtLeast
	count := func(b *Batch) {
		if b != nil && b.Kind == GraftBatch {
			times, atLeast = max(times, b.Ordinal), atLeast || b.AtLeast
		}
	}
	count(l.Batch)
	for _, b := range l.Batches {
		count(b)
	}
	return times, atLeast
}

// inarch gives a standing tree new roots: the seedlings are used up.
func (n *Nursery) inarch(f *fact.Graft, st stocks) {
	tree, ok := n.tree(f.Into)
	if !ok || !n.standsNow(tree, f.Into.Span) || !n.agree(tree.Name, tree.Place) {
		return
	}
	switch {
	case st.tree != nil:
		n.refuse(f.Of.Span, "wrong-kind", "what is grafted into a tree comes from a lot of plants", tree.Name)
		return
	case len(f.With) > 0 || f.Over.Given():
		n.refuse(f.Into.Span, "wrong-kind", fmt.Sprintf("the plants that are grafted into %s bring their own tops; leave out with, or leave out into", tree.Name), tree.Name)
		return
	}
	n.method(f.By)
	tree.Inarched = append(tree.Inarched, Link{From: Source{Thing: st.from}, Step: RootsFrom, Entry: n.now, Count: f.Count.N, Late: true})
	n.exit(fact.Worked, fact.Worked, st.from, st.state, f.Count.N)
}
