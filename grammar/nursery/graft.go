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
	if !n.free(f.As) {
		return
	}
	l := n.makeLot(f.As, fact.Grafted)
	l.Top, l.Below, l.Wood, l.Inter = top, st.on, wood, inter
	l.Limbs, l.Beside, l.About = st.tree != nil, f.Beside, f.Count.About
	l.Mother = st.tree
	if st.tree != nil {
		st.tree.Tops = append(st.tree.Tops, l)
	}
	b := n.makeBatch(GraftBatch, l, f.Count.N)
	b.From, b.Stock, b.Wood, b.Limbs = st.from, st.on[len(inter)], wood, l.Limbs
	b.Method, b.Ordinal, b.AtLeast, b.About = n.method(f.By), st.ordinal, st.atLeast, f.Count.About
	l.Tries = 0
	if f.Scions.Given {
		b.ScionsEach = f.Scions.N
	}
	n.deadlines(b)
	if tree := n.approached(b); tree != nil {
		l.Mother = tree
		tree.Layers = append(tree.Layers, l)
	}
	n.use(wood, f.Count.N*b.ScionsEach)
	n.use(inter, f.Count.N)
	n.takeStocks(st, l, f.Count.N)
}

// takeStocks moves the stocks into the lot of grafts.
func (n *Nursery) takeStocks(st stocks, l *Lot, count int32) {
	if st.from == nil {
		n.enter(fact.Grafted, nil, fact.AnyState, l, fact.Waiting, count)
		return
	}
	l.Roots = []Source{{Thing: st.from}}
	if l.Place == nil {
		l.Place = st.from.Place
	}
	l.Pot = st.from.Pot
	leftBefore(st.from, st.state, count)
	n.passOn(fact.Grafted, st.from, st.state, l, fact.Waiting, count)
	st.from.settleBare()
}

// approached is the tree that an approach graft's scions still hang on.
func (n *Nursery) approached(b *Batch) *Tree {
	if b.Method == nil || len(b.Wood) != 1 {
		return nil
	}
	switch spelling.Fold(b.Method.Name) {
	case "approach", "approach-graft", "inarch":
		return treeOf(b.Wood[0].Thing)
	}
	return nil
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
		on := append([]Identity{t.Identity()}, t.On...)
		return stocks{tree: t, on: on, ordinal: 1}, n.stands(t, f.Of.Span)
	case *Lot:
		return n.stocksOfLot(f, t)
	}
	n.refuse(f.Of.Span, "wrong-kind", fmt.Sprintf("%s is %s and can't be a stock; write the lot of stocks after of and the wood after with", t.Label(), kindOf(t)), t.Label())
	return stocks{}, false
}

func (n *Nursery) stocksOfLot(f *fact.Graft, l *Lot) (stocks, bool) {
	st := stocks{from: l, state: f.State, ordinal: l.Tries + 1, atLeast: l.AtLeast}
	if st.state == fact.AnyState {
		st.state = fact.Living
	}
	switch {
	case st.state == fact.Attached || st.state == fact.Waiting && (l.Seed() || l.OnMother()):
		n.refuse(f.Of.Span, "not-free", fmt.Sprintf("what is %s in %s is no plant of its own yet and can't be grafted", st.state, l.Name), l.Name)
		return st, false
	case f.Noun == fact.Limbs && !l.Limbs:
		n.refuse(f.Of.Span, "wrong-kind", fmt.Sprintf("%s is a lot of plants; limbs belong to a tree", l.Name), l.Name)
		return st, false
	case l.Limbs && !n.stands(l.Mother, f.Of.Span):
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
	default: // the old top is dead, or is cut off unseen
		st.on = l.Below
		st.ordinal, st.atLeast = l.worked()+1, l.AtLeast || l.Batch == nil
		if len(st.on) == 0 {
			st.on = []Identity{l.Top}
		} else if len(l.Inter) > 0 && !l.interLives() {
			st.on = l.Below[1:]
		}
	}
	return st, true
}

// worked is how often the failed plants of a lot have been worked: the highest,
// where lots were joined.
func (l *Lot) worked() int {
	most := l.Tries
	if l.Batch != nil {
		most = max(most, l.Batch.Ordinal)
	}
	for _, b := range l.Batches {
		most = max(most, b.Ordinal)
	}
	return most
}

// interLives reports whether the failed plants of a lot made with an interstock
// kept it: every failure was of the top alone.
func (l *Lot) interLives() bool { return l.Batch != nil && l.Batch.Upper > 0 && l.Batch.Lower == 0 }

// inarch gives a standing tree new roots: the seedlings are used up.
func (n *Nursery) inarch(f *fact.Graft, st stocks) {
	tree, ok := n.tree(f.Into)
	if !ok || !n.stands(tree, f.Into.Span) {
		return
	}
	if st.from == nil {
		n.refuse(f.Of.Span, "wrong-kind", "what is grafted into a tree comes from a lot of plants", tree.Name)
		return
	}
	n.method(f.By)
	tree.Inarched = append(tree.Inarched, Link{From: Source{Thing: st.from}, Step: RootsFrom, Entry: n.now, Count: f.Count.N})
	leftBefore(st.from, st.state, f.Count.N)
	n.exit(fact.Worked, fact.Worked, st.from, st.state, f.Count.N)
	st.from.settleBare()
}

// settleBare keeps the number of plants without the new top within those that
// live.
func (l *Lot) settleBare() { l.Bare = min(l.Bare, l.On[fact.Living]) }
