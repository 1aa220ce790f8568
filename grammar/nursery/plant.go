package nursery

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/budstick/budstick/grammar/fact"
)

// plant sets plants of a lot out; named ones are followed as trees.
func (n *Nursery) plant(f *fact.Plant) {
	l, ok := n.lot(f.Of)
	if !ok {
		return
	}
	state := orLiving(f.State)
	switch {
	case l.Limbs || state == fact.Attached || state != fact.Living && l.Free(state) == 0:
		n.refuse(f.Of.Span, "not-free", fmt.Sprintf("what is %s in %s is no plant of its own and can't be planted", state, l.Name), l.Name)
		return
	case !n.has(l, state, f.Count, "planted"):
		return
	}
	names := treeNames(f)
	if f.As.Given() && !n.nameTrees(f, names) {
		return
	}
	v, ok := n.plantedVariety(f, l)
	if !ok {
		return
	}
	n.takeOut(fact.PlantedOut, l, state, f.Count.N)
	for _, name := range names {
		t := &Tree{Name: name, Made: n.now, Variety: v, Seedling: l.Top.Seedling && v == l.Top.Variety, On: l.Below,
			Planted: fact.On(n.now.Day()), From: Source{Thing: l}, Batch: l.Batch, Place: n.place(n.now.At()), State: state}
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
func (n *Nursery) nameTrees(f *fact.Plant, names []string) bool {
	if int32(len(names)) != f.Count.N {
		last := ""
		if f.Count.N > 1 {
			last = fmt.Sprintf(": as %s to %s", spell(f.As.Text), spell(nth(f.As.Text, int(f.Count.N)-1)))
		}
		n.refuse(f.As.Span, "tree-names", fmt.Sprintf("%d are planted, but %d get a name%s", f.Count.N, len(names), last))
		return false
	}
	for _, name := range names {
		if !n.free(fact.Name{Text: name, Span: f.As.Span}) {
			return false
		}
	}
	return true
}

// treeNames are the names from As through Through: R2/1 to R2/12. Names that
// make no run are none.
func treeNames(f *fact.Plant) []string {
	switch {
	case !f.As.Given():
		return nil
	case !f.Through.Given():
		return []string{f.As.Text}
	}
	head, first := splitNumber(f.As.Text)
	tail, last := splitNumber(f.Through.Text)
	if head != tail || first < 0 || last < first || last-first >= 10_000 {
		return nil
	}
	names := make([]string, 0, last-first+1)
	for i := range last - first + 1 {
		names = append(names, nth(f.As.Text, i))
	}
	return names
}

// nth counts a name on: the third after R2/08 is R2/11.
func nth(name string, by int) string {
	head, number := splitNumber(name)
	if number < 0 {
		return name
	}
	digits := strconv.Itoa(number + by)
	return head + strings.Repeat("0", max(0, len(name)-len(head)-len(digits))) + digits
}

// splitNumber takes the number off the end of a name; it is -1 where there is
// none.
func splitNumber(name string) (string, int) {
	head := strings.TrimRight(name, "0123456789")
	number, err := strconv.Atoi(name[len(head):])
	if err != nil {
		return head, -1
	}
	return head, number
}

// takeBack brings plants back that were sold, into a lot of their own.
func (n *Nursery) takeBack(f *fact.Return) {
	l, ok := n.lot(f.Of)
	if !ok {
		return
	}
	if back := l.Returned + f.Count.N; back > l.Out[fact.Sold] {
		n.refuse(f.Count.Span, "return-more-than-sold", fmt.Sprintf("%d of %s have come back with these, but only %d were ever sold", back, l.Name, l.Out[fact.Sold]), l.Name)
		return
	}
	n.party(f.From)
	if f.Dead {
		l.Returned += f.Count.N
		return
	}
	if !f.As.Given() {
		n.refuse(f.Of.Span, "part-needs-name", fmt.Sprintf("plants that come back go into a lot of their own, which needs a name: as %s-r", l.Name), l.Name)
		return
	}
	if !n.free(f.As) {
		return
	}
	l.Returned += f.Count.N
	d := n.derive(f.As, fact.Returned, l)
	d.leaveMother()
	d.Place = n.place(n.now.At())
	d.Tries = max(l.Tries, 0)
	if f.State == fact.Failed {
		d.Tries = l.worked()
	}
	d.Batch, d.Batches = nil, nil
	n.enter(fact.Returned, nil, fact.AnyState, d, orLiving(f.State), f.Count.N)
}
