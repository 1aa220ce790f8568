package nursery

import (
	"fmt"
	"slices"

	"github.com/budstick/budstick/grammar/fact"
)

// pass takes plants on, with their past: sever, release, split, pot and move.
func (n *Nursery) pass(f *fact.Pass) {
	l, ok := n.lot(f.Lot)
	if !ok {
		return
	}
	switch f.How {
	case fact.Severed:
		n.sever(f, l)
	case fact.Released:
		n.release(f, l)
	case fact.SplitOff:
		state := orLiving(f.State)
		if n.has(l, state, f.Count, "split off") && n.free(f.As) {
			n.part(f, l, state, state)
		}
	default:
		n.shift(f, l)
	}
}

func orLiving(s fact.State) fact.State {
	if s == fact.AnyState {
		return fact.Living
	}
	return s
}

// part moves plants to a lot of their own that keeps their past.
func (n *Nursery) part(f *fact.Pass, l *Lot, from, to fact.State) *Lot {
	d := n.derive(f.As, f.How, l)
	if from == fact.Living && !l.Limbs {
		d.leaveMother()
	}
	bare := min(l.Bare, max(0, f.Count.N-(l.On[from]-l.Bare)))
	n.passOn(f.How, l, from, d, to, f.Count.N)
	if l.Beside && from == fact.Living {
		d.Bare = bare
		l.Bare -= bare
	}
	l.settleBare()
	return d
}

// derive begins a lot of plants of another, with the same past.
func (n *Nursery) derive(as fact.Name, how fact.How, l *Lot) *Lot {
	d := n.makeLot(as, how)
	d.Day, d.Top, d.Below, d.Wood, d.Inter = l.Day, l.Top, l.Below, l.Wood, l.Inter
	d.Batch, d.Batches, d.Tries, d.AtLeast = l.Batch, l.Batches, l.Tries, l.AtLeast
	d.Mother, d.Limbs, d.Beside, d.About, d.Pot = l.Mother, l.Limbs, l.Beside, l.About, l.Pot
	d.Roots = []Source{{Thing: l}}
	d.Marks = slices.Clone(l.Marks)
	if d.Place == nil {
		d.Place = l.Place
	}
	switch {
	case d.Limbs:
		d.Mother.Tops = append(d.Mother.Tops, d)
	case d.Mother != nil:
		d.Mother.Layers = append(d.Mother.Layers, d)
	}
	return d
}

// leaveMother makes a lot that was just derived free of the tree that the
// other lot hangs on.
func (l *Lot) leaveMother() {
	if l.Mother == nil {
		return
	}
	l.Mother.Layers = slices.DeleteFunc(l.Mother.Layers, func(o *Lot) bool { return o == l })
	l.Mother = nil
}

func (n *Nursery) sever(f *fact.Pass, l *Lot) {
	if !l.OnMother() && !l.Stood {
		n.refuse(f.Lot.Span, "wrong-kind", fmt.Sprintf("%s hangs on no mother; only layers and approach grafts are severed", l.Name), l.Name)
		return
	}
	if !f.Count.Given {
		f.Count = fact.Count{N: l.On[fact.Attached], Given: true, Span: f.Lot.Span}
	}
	if l.On[fact.Attached] < f.Count.N || f.Count.N == 0 {
		n.refuse(f.Count.Span, "sever-more-than-rooted", fmt.Sprintf("%d are severed here, but %d of %s have rooted and still hang on the mother; it holds %s (check says which rooted)",
			f.Count.N, l.On[fact.Attached], l.Name, l.states()), l.Name)
		return
	}
	if !f.As.Given() {
		l.Stood = true
		n.change(fact.Severed, l, fact.Attached, fact.Living, f.Count.N)
		l.placeSevered(n)
		return
	}
	if !n.free(f.As) {
		return
	}
	d := n.derive(f.As, fact.Severed, l)
	d.leaveMother()
	d.Day = n.now.Day()
	n.passOn(fact.Severed, l, fact.Attached, d, fact.Living, f.Count.N)
}

// placeSevered notes where severed layers went, if the entry says so.
func (l *Lot) placeSevered(n *Nursery) {
	if at := n.now.At(); at.Given() {
		l.Place = n.place(at)
		n.shifted = append(n.shifted, l)
	}
}

// release makes plain stocks of those whose top failed.
func (n *Nursery) release(f *fact.Pass, l *Lot) {
	if !l.Grafted() || l.Limbs {
		n.refuse(f.Lot.Span, "wrong-kind", fmt.Sprintf("%s was not grafted, so it has no failed stocks to release", l.Name), l.Name)
		return
	}
	if !n.has(l, fact.Failed, f.Count, "released") || !n.free(f.As) {
		return
	}
	d := n.derive(f.As, fact.Released, l)
	stock := l.Below
	if len(l.Inter) > 0 && !l.interLives() {
		stock = l.Below[1:]
	}
	d.Top, d.Below, d.Wood, d.Inter = stock[0], stock[1:], nil, nil
	d.leaveMother()
	d.Tries, d.Batch, d.Batches, d.Beside = l.worked(), nil, nil, false
	d.AtLeast = l.AtLeast || l.Batch == nil
	n.passOn(fact.Released, l, fact.Failed, d, fact.Living, f.Count.N)
}

// shift pots or moves a whole lot, or a part of it into a lot of its own.
func (n *Nursery) shift(f *fact.Pass, l *Lot) {
	free := l.Free(fact.AnyState)
	if l.Limbs || free == 0 {
		n.refuse(f.Lot.Span, "nothing-free", fmt.Sprintf("nothing of %s stands free to be %s; it holds %s", l.Name, f.How, l.states()), l.Name)
		return
	}
	to := l
	if f.Count.Given && f.Count.N != free || f.As.Given() {
		if to = n.shiftPart(f, l); to == nil {
			return
		}
	}
	n.shifted = append(n.shifted, to)
	if f.How == fact.Potted {
		to.Pot = Pot{f.Pot, f.Label.Text, n.now.Day()}
	}
	if place := n.place(f.To); place != nil {
		to.Place = place
	} else if at := n.now.At(); at.Given() {
		to.Place = n.place(at)
	}
}

func (n *Nursery) shiftPart(f *fact.Pass, l *Lot) *Lot {
	if !f.Count.Given {
		f.Count = fact.Count{N: l.Free(fact.AnyState), Given: true, Span: f.Lot.Span}
	}
	if !f.As.Given() {
		n.refuse(f.Count.Span, "part-needs-name", fmt.Sprintf("%d of the %d that stand free in %s become a lot of their own, which needs a name: as %s-b",
			f.Count.N, l.Free(fact.AnyState), l.Name, l.Name), l.Name)
		return nil
	}
	state := f.State
	if state == fact.AnyState {
		state = fact.Living
		for s := fact.Waiting; s < fact.States; s++ {
			if l.Free(s) == l.Free(fact.AnyState) {
				state = s
			}
		}
	}
	if !n.has(l, state, f.Count, f.How.String()) || !n.free(f.As) {
		return nil
	}
	return n.part(f, l, state, state)
}

func (n *Nursery) join(f *fact.Join) {
	lots := make([]*Lot, 0, len(f.Lots))
	for _, name := range f.Lots {
		l, ok := n.lot(name)
		if !ok || !n.joins(lots, l, name) {
			return
		}
		lots = append(lots, l)
	}
	if len(lots) < 2 {
		n.refuse(f.Lots[0].Span, "join-one", "joining takes two lots or more: join AM26, AM26b as AM26t")
		return
	}
	if !n.free(f.As) {
		return
	}
	d := n.derive(f.As, fact.Joined, lots[0])
	d.leaveMother()
	d.Roots, d.Batches, d.Marks = nil, nil, nil
	for _, l := range lots {
		d.absorb(l)
		for s := fact.Living; s < fact.States; s++ {
			n.passOn(fact.Joined, l, s, d, s, l.On[s])
		}
		d.Bare += l.Bare
		l.settleBare()
	}
	d.agreeBatches()
}

// joins refuses a lot that can't be joined to those before it.
func (n *Nursery) joins(lots []*Lot, l *Lot, name fact.Name) bool {
	switch {
	case slices.Contains(lots, l):
		n.refuse(name.Span, "join-one", l.Name+" stands twice in this list", l.Name)
	case l.Limbs:
		n.refuse(name.Span, "wrong-kind", l.Name+" is limbs of a tree, which can't be joined", l.Name)
	case l.On[fact.Waiting]+l.On[fact.Attached] > 0:
		n.refuse(name.Span, "join-waiting", fmt.Sprintf("%s still holds %s; check (and sever) first, then join", l.Name, l.states()), l.Name)
	case l.Plants() == 0:
		n.refuse(name.Span, "empty-lot", l.Name+" is empty, so there is nothing to join", l.Name)
	case len(lots) > 0 && lots[0].Top.Species() != l.Top.Species():
		n.refuse(name.Span, "join-species", fmt.Sprintf("%s is %s and %s is %s; different species can't be one lot",
			lots[0].Name, lots[0].Top.Species(), l.Name, l.Top.Species()), l.Name, lots[0].Name)
	case len(lots) > 0 && lots[0].Top != l.Top:
		n.refuse(name.Span, "join-variety", fmt.Sprintf("%s is %s and %s is %s; joined, nobody could say which plant is which",
			lots[0].Name, lots[0].Top, l.Name, l.Top), l.Name, lots[0].Name)
	default:
		return true
	}
	return false
}

// absorb takes over what a joined lot must remember of one of its parts.
func (l *Lot) absorb(part *Lot) {
	l.Roots = append(l.Roots, Source{Thing: part})
	l.Tries = max(l.Tries, part.Tries)
	l.AtLeast = l.AtLeast || part.AtLeast || l.Tries != part.Tries
	l.About = l.About || part.About
	l.Beside = l.Beside || part.Beside
	if part.Batch != nil {
		l.Batches = append(l.Batches, part.Batch)
	}
	l.Batches = append(l.Batches, part.Batches...)
	if !slices.Equal(l.Below, part.Below) {
		l.MixedBelow = true
	}
	for _, s := range part.Wood {
		if !slices.Contains(l.Wood, s) {
			l.Wood = append(l.Wood[:len(l.Wood):len(l.Wood)], s)
		}
	}
	for _, m := range part.Marks {
		if !slices.Contains(l.Marks, m) {
			l.Marks = append(l.Marks, m)
		}
	}
	if part.Day > l.Day {
		l.Day = part.Day
	}
}

// agreeBatches keeps one batch where all parts were of it.
func (l *Lot) agreeBatches() {
	seen := map[*Batch]bool{}
	l.Batches = slices.DeleteFunc(l.Batches, func(b *Batch) bool {
		again := seen[b]
		seen[b] = true
		return again
	})
	l.Batch = nil
	if len(l.Batches) == 1 {
		l.Batch, l.Batches = l.Batches[0], nil
	}
	l.AtLeast = l.AtLeast || len(l.Batches) > 1
}
