package nursery

import (
	"fmt"

	"github.com/budstick/budstick/grammar/fact"
)

// pick is fruit off trees that stand.
func (n *Nursery) pick(f *fact.Pick) {
	for _, name := range f.From {
		t, ok := n.thing(name)
		if !ok {
			return
		}
		tree := TreeOf(t)
		if tree == nil {
			n.refuse(name.Span, "wrong-kind", fmt.Sprintf("fruit is picked from a tree, and %s is %s", t.Label(), kindOf(t)), t.Label())
			return
		}
		if !n.stands(tree, name.Span) || !n.agree(tree.Name, tree.Place) || t == Thing(tree) && !n.oneTop(tree, name.Span, "fruit") {
			return
		}
	}
}

// tend notes jobs done on lots and trees.
func (n *Nursery) tend(f *fact.Tend) {
	lots := make([]*Lot, 0, 4)
	for _, name := range f.Lots {
		t, ok := n.thing(name)
		if !ok {
			return
		}
		switch t := t.(type) {
		case *Lot:
			ok = n.begun(t, name)
			lots = append(lots, t)
		case *Bundle:
			n.refuse(name.Span, "wrong-kind", fmt.Sprintf("%s is %s; jobs are done on lots and trees", t.Name, kindOf(t)), t.Name)
			ok = false
		default:
			ok = n.stands(TreeOf(t), name.Span)
		}
		if !ok || !n.agree(t.Label(), standsAt(t)) {
			return
		}
	}
	for _, l := range lots {
		l.Tends = append(l.Tends, n.now)
	}
}

// mark puts a mark on a thing or a variety, or takes it off.
func (n *Nursery) mark(f *fact.Mark) {
	marks := n.marksOf(f.Of)
	if marks == nil {
		return
	}
	word := f.Mark.Text
	if !f.Clear {
		*marks = append(*marks, Mark{Word: word, Day: n.now.Day(), Entry: n.now})
		return
	}
	for i := len(*marks) - 1; i >= 0; i-- {
		if m := &(*marks)[i]; m.Word == word && m.Cleared == nil {
			m.Cleared = n.now
			return
		}
	}
	n.refuse(f.Mark.Span, "clear-nothing", fmt.Sprintf("%s does not bear the mark %s on this day, so there is nothing to clear", f.Of.Text, word), f.Of.Text)
}

// marksOf finds the marks of a thing, or of a variety where no thing has the
// name.
func (n *Nursery) marksOf(name fact.Name) *[]Mark {
	if t, ok := n.Thing(name.Text); ok {
		n.touch(t)
		if !n.agree(t.Label(), standsAt(t)) {
			return nil
		}
		switch t := t.(type) {
		case *Lot:
			return &t.Marks
		case *Tree:
			return &t.Marks
		case *Limb:
			return &t.Marks
		}
		n.refuse(name.Span, "wrong-kind", fmt.Sprintf("%s is %s; marks stand on trees, limbs, lots and varieties", t.Label(), kindOf(t)), t.Label())
		return nil
	}
	if v, ok := n.Variety(name.Text); ok {
		return &v.Marks
	}
	n.unknown(name, "unknown-name", "")
	return nil
}

// maxPast bounds how far back the past of a lot is followed.
const maxPast = 64

// Tended reports whether a job was done on the plants of a lot: on the lot
// itself, or on all the lots that its plants came from since they were grafted.
func (l *Lot) Tended(job string) bool { return l.tended(job, 0) }

func (l *Lot) tended(job string, depth int) bool {
	for _, e := range l.Tends {
		if e.Effect.(*fact.Tend).Job.Text == job {
			return true
		}
	}
	if l.How == fact.Grafted || depth > maxPast || len(l.Roots) == 0 {
		return false
	}
	for _, s := range l.Roots {
		from, ok := s.Thing.(*Lot)
		if !ok || !from.tended(job, depth+1) {
			return false
		}
	}
	return true
}
