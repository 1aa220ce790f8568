package nursery

import (
	"fmt"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
)

// plant sets plants of a lot out; named ones are followed as trees.
func (n *Nursery) plant(f *fact.Plant) {
	l, ok := n.lot(f.Of)
	if !ok {
		return
	}
	state := orLiving(f.State)
	switch {
	case l.Limbs || l.Free(state) < l.On[state]:
		n.refuse(f.Of.Span, "not-free", fmt.Sprintf("what is %s in %s is no plant of its own and can't be planted", state, l.Name), l.Name)
		return
	case !n.has(l, state, f.Count, "planted"):
		return
	}
	names := rowOf(f)
	if !n.nameTrees(f, names) {
		return
	}
	v, ok := n.plantedVariety(f, l)
	if !ok {
		return
	}
	on := l.Below
	if state == fact.Failed {
		on, _ = l.Stump()
	}
	went := n.exit(fact.PlantedOut, fact.PlantedOut, l, state, f.Count.N)
	for i := range names.count {
		t := &Tree{Name: names.name(i), Made: n.now, Variety: v, Seedling: l.Top.Seedling && v == l.Top.Variety, On: on,
			Planted: fact.On(n.now.Day()), From: Source{Thing: l}, Batch: l.Batch, Place: n.place(n.now.At()), State: state,
			Beside: l.Beside && state != fact.Failed}
		if i >= names.count-int(went.bare) {
			t.loseTop()
		}
		t.Marks = append(t.Marks, l.Marks...)
		n.addTree(t)
	}
}

// plantedVariety is what the trees are: what the lot is, or for a seedling the
// new variety that it is made.
func (n *Nursery) plantedVariety(f *fact.Plant, l *Lot) (*Variety, bool) {
	if !f.Variety.Given() {
		return l.Top.Variety, true
	}
	v, ok := n.variety(f.Variety)
	if ok && v != l.Top.Variety && !l.Top.Seedling {
		n.refuse(f.Variety.Span, "plant-variety", fmt.Sprintf("%s is %s, and planting it makes it no %s", l.Name, l.Top, v.Name), l.Name)
		return nil, false
	}
	return v, ok
}

// nameTrees makes sure that there is a free name for each tree.
func (n *Nursery) nameTrees(f *fact.Plant, names row) bool {
	if !f.As.Given() {
		return true
	}
	if names.count != int(f.Count.N) {
		say := fmt.Sprintf("%d %s planted, but %d %s a name", f.Count.N, isOrAre(f.Count.N), names.count, finding.Either(names.count, "gets", "get"))
		if r := rowFrom(f.As.Text); r.first >= 0 && f.Count.N > 1 {
			say += fmt.Sprintf(": as %s to %s", spell(f.As.Text), spell(r.name(int(f.Count.N)-1)))
		}
		n.refuse(f.As.Span, "tree-names", say)
		return false
	}
	for i := range names.count {
		if !n.free(fact.Name{Text: names.name(i), Span: f.As.Span}) {
			return false
		}
	}
	return true
}

// takeBack brings plants back that were sold, into a lot of their own.
func (n *Nursery) takeBack(f *fact.Return) {
	l, ok := n.lot(f.Of)
	if !ok {
		return
	}
	back := l.Returned + f.Count.N
	switch {
	case back > l.Out[fact.Sold]:
		n.refuse(f.Count.Span, "return-more-than-sold", fmt.Sprintf("%d of %s %s come back with these, but only %d %s ever sold", back, l.Name, hasOrHave(back), l.Out[fact.Sold], wasOrWere(l.Out[fact.Sold])), l.Name)
		return
	case f.Dead:
		n.party(f.From)
		l.Returned = back
		return
	case f.State != fact.Living && f.State != fact.Failed:
		n.refuse(f.Count.Span, "wrong-kind", fmt.Sprintf("look at what comes back and say how it is: return %d living of %s, failed or dead", f.Count.N, spell(l.Name)), l.Name)
		return
	case !f.As.Given():
		n.refuse(f.Of.Span, "part-needs-name", fmt.Sprintf("plants that come back go into a lot of their own, which needs a name: as %s-r", l.Name), l.Name)
		return
	case !n.free(f.As):
		return
	}
	n.party(f.From)
	l.Returned = back
	d := n.derive(f.As, fact.Returned, l, false)
	d.Place = n.place(n.now.At())
	d.ordinal, d.AtLeast = l.worked()
	d.Batch, d.Batches = nil, nil
	if d.Beside && f.State == fact.Failed { // the old top lives
		n.enter(fact.Returned, d, fact.Living, f.Count.N)
		d.Bare = f.Count.N
		return
	}
	n.enter(fact.Returned, d, f.State, f.Count.N)
}
