package nursery

import (
	"fmt"
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
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
			n.passOn(f.How, l, state, n.derive(f.As, f.How, l, l.Limbs || l.hangs(state)), state, f.Count.N)
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

// derive begins a lot of plants of another, with the same past. Those that
// hang on a tree go on doing so; others stand free of it.
func (n *Nursery) derive(as fact.Name, how fact.How, l *Lot, hang bool) *Lot {
	d := n.makeLot(as, how)
	d.Day, d.Top, d.Below, d.Wood, d.Inter = l.Day, l.Top, l.Below, l.Wood, l.Inter
	d.Batch, d.Batches, d.Tries, d.AtLeast, d.ordinal = l.Batch, l.Batches, l.Tries, l.AtLeast, l.ordinal
	d.Limbs, d.Beside, d.MixedBelow, d.About, d.Pot = l.Limbs, l.Beside, l.MixedBelow, l.About, l.Pot
	d.Roots = []Source{{Thing: l}}
	d.Marks = slices.Clone(l.Marks)
	if d.Place == nil {
		d.Place = l.Place
	}
	if !hang {
		return d
	}
	d.Mother = l.Mother
	if d.Limbs {
		d.Mother.Tops = append(d.Mother.Tops, d)
	} else {
		d.Mother.Layers = append(d.Mother.Layers, d)
	}
	return d
}

func (n *Nursery) sever(f *fact.Pass, l *Lot) {
	if !l.OnMother() {
		n.refuse(f.Lot.Span, "wrong-kind", fmt.Sprintf("%s hangs on no mother; only layers and approach grafts are severed", l.Name), l.Name)
		return
	}
	if l.On[fact.Attached] < f.Count.N {
		end, related := n.orMend(l.Name, " (check says which rooted)")
		n.refuse(f.Count.Span, "sever-more-than-rooted", fmt.Sprintf("%d %s severed here, but %d of %s %s on the mother; it holds %s%s",
			f.Count.N, isOrAre(f.Count.N), l.On[fact.Attached], l.Name, finding.Either(l.On[fact.Attached], "has rooted and still hangs", "have rooted and still hang"), l.states(), end), l.Name).Related = related
		return
	}
	if f.As.Given() {
		if n.free(f.As) {
			n.passOn(fact.Severed, l, fact.Attached, n.derive(f.As, fact.Severed, l, false), fact.Living, f.Count.N)
		}
		return
	}
	n.change(fact.Severed, l, fact.Attached, fact.Living, f.Count.N, past{})
	if at := n.place(n.now.At()); at != nil {
		l.Place = at
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
	stump, sure := l.Stump()
	d := n.derive(f.As, fact.Released, l, false)
	d.Top, d.Below, d.MixedBelow = stump[0], stump[1:], l.MixedBelow || !sure
	d.Wood, d.Inter, d.Batch, d.Batches, d.Beside = nil, nil, nil, nil, false
	d.Tries, d.AtLeast = l.worked()
	d.ordinal = 0
	n.passOn(fact.Released, l, fact.Failed, d, fact.Living, f.Count.N)
}

// shift pots or moves all plants of a lot that stand free, or a part of them
// that becomes a lot of its own.
func (n *Nursery) shift(f *fact.Pass, l *Lot) {
	free := l.Free(fact.AnyState)
	if free == 0 {
		n.refuse(f.Lot.Span, "nothing-free", fmt.Sprintf("nothing of %s stands free to be %s; it holds %s", l.Name, f.How, l.states()), l.Name)
		return
	}
	all := (!f.Count.Given || f.Count.N == free) && (f.State == fact.AnyState || l.Free(f.State) == free)
	to := l
	switch {
	case all && !f.As.Given():
	case !all && !n.partFree(f, l) || !n.free(f.As):
		return
	default:
		to = n.derive(f.As, f.How, l, false)
		n.shiftPart(f, l, to, all)
	}
	n.shifted = append(n.shifted, to)
	if f.How == fact.Potted {
		to.Pot = Pot{f.Pot, f.Label.Text, n.now.Day()}
	}
	if place := n.place(f.To); place != nil {
		to.Place = place
	} else if place := n.place(n.now.At()); place != nil {
		to.Place = place
	}
}

// partFree refuses a part that does not stand free, or has no name.
func (n *Nursery) partFree(f *fact.Pass, l *Lot) bool {
	state := l.shifts(f.State)
	if l.Free(state) == 0 && l.On[state] > 0 {
		n.refuse(f.Lot.Span, "not-free", fmt.Sprintf("what is %s in %s is no plant of its own yet and can't be %s", state, l.Name, f.How), l.Name)
		return false
	}
	if !n.has(l, state, f.Count, f.How.String()) {
		return false
	}
	if !f.As.Given() {
		n.refuse(f.Count.Span, "part-needs-name", fmt.Sprintf("%d of the %d that stand free in %s become a lot of their own, which needs a name: as %s-b",
			f.Count.N, l.Free(fact.AnyState), l.Name, l.Name), l.Name)
		return false
	}
	return true
}

// shifts is the state of the plants that a part is of: the one written, else
// the only one of which any stand free, else living.
func (l *Lot) shifts(state fact.State) fact.State {
	if state != fact.AnyState {
		return state
	}
	for s := fact.Waiting; s < fact.States; s++ {
		if l.Free(s) > 0 && l.Free(s) == l.Free(fact.AnyState) {
			return s
		}
	}
	return fact.Living
}

// shiftPart brings all plants that stand free, or a part of one state, to a lot
// of their own.
func (n *Nursery) shiftPart(f *fact.Pass, l, to *Lot, all bool) {
	if !all {
		state := l.shifts(f.State)
		n.passOn(f.How, l, state, to, state, f.Count.N)
		return
	}
	for s := fact.Waiting; s < fact.States; s++ {
		n.passOn(f.How, l, s, to, s, l.Free(s))
	}
}
