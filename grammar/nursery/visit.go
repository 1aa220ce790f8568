package nursery

import (
	"fmt"

	"github.com/budstick/budstick/grammar/fact"
	spelling "github.com/budstick/budstick/grammar/name"
)

// A Visit is a treatment or an inspection, with what it was of.
type Visit struct {
	Entry  *fact.Entry // of effect *fact.Treat or *fact.Inspect
	Things []Thing
	Places []*Place
	Farm   bool // all of it
}

// Standing reports whether a thing stood in a place of the visit on a day.
func (v *Visit) Standing(t Thing, day fact.Date) bool {
	var at *Place
	switch t := t.(type) {
	case *Lot:
		at = t.SpotOn(day).Place
		if t.Limbs {
			at = t.Mother.Place
		}
	case *Tree:
		at = t.Place
	}
	for _, p := range v.Places {
		if p == at {
			return true
		}
	}
	return v.Farm
}

func (n *Nursery) treat(f *fact.Treat) { n.visit(f.Of, false) }

func (n *Nursery) inspect(f *fact.Inspect) {
	n.visit(f.Of, true)
	if !n.refused {
		n.party(f.By)
	}
}

// visit notes a treatment or an inspection. A name is that of a thing, else of
// a place, else of the farm, where that may be meant.
func (n *Nursery) visit(of []fact.Name, farm bool) {
	v := Visit{Entry: n.now}
	for _, name := range of {
		if _, thing := n.Thing(name.Text); !thing {
			if p, ok := n.Place(name.Text); ok {
				v.Places = append(v.Places, p)
				continue
			}
			if n.Farm != nil && spelling.Fold(n.Farm.Name.Text) == spelling.Fold(name.Text) {
				if !farm {
					n.refuse(name.Span, "wrong-kind", fmt.Sprintf("%s is the whole farm; name the lots, trees or places that were treated", name.Text))
					return
				}
				v.Farm = true
				continue
			}
		}
		t, ok := n.thing(name)
		if !ok {
			return
		}
		if tree := TreeOf(t); tree != nil && !n.stands(tree, name.Span) {
			return
		}
		if l, lot := t.(*Lot); lot && !n.begun(l, name) || !n.agree(t.Label(), standsAt(t)) {
			return
		}
		v.Things = append(v.Things, t)
	}
	n.Visits = append(n.Visits, v)
}
