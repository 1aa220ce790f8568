package nursery

import (
	"fmt"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/source"
)

func (n *Nursery) cut(f *fact.Cut) {
	if !n.free(f.As) {
		return
	}
	var from []Source
	var v *Variety
	for _, name := range f.From {
		t, ok := n.thing(name)
		if !ok {
			return
		}
		if _, wood := t.(*Bundle); wood {
			n.refuse(name.Span, "wrong-kind", fmt.Sprintf("wood is cut from a tree, and %s is wood already", t.Label()), t.Label())
			return
		}
		id, ok := n.woodOf(t, name)
		if !ok {
			return
		}
		if len(from) > 0 && id.Variety != v {
			n.refuse(name.Span, "mixed-wood", fmt.Sprintf("%s is %s and %s is %s; wood of two varieties is two bundles",
				from[0].Label(), varietyName(v), t.Label(), id), t.Label(), from[0].Label())
			return
		}
		v = id.Variety
		from = append(from, Source{Thing: t})
	}
	b := n.makeBundle(f.As, fact.Scions, v)
	b.From, b.Store, b.About, b.Count = from, f.Store.Text, f.Count.About, f.Count.N
	if f.Noun == fact.Sticks {
		b.Count = -1
		if f.Buds.Given {
			b.Count = f.Count.N * f.Buds.N
		}
	}
	for _, s := range from {
		credit(s.Thing, max(b.Count, 0)/int32(len(from)))
	}
}

func varietyName(v *Variety) string { return Identity{Variety: v}.String() }

// credit counts scions for the tree or limb they come from.
func credit(t Thing, scions int32) {
	switch t := t.(type) {
	case *Tree:
		t.Wood += scions
	case *Limb:
		t.Wood += scions
		t.Tree.Wood += scions
	case *Lot:
		if t.Limbs {
			t.Mother.Wood += scions
		}
	}
}

// woodOf is the identity of the wood that a thing gives on the day of the entry
// at hand, or refuses the entry: the thing must be there, and a tree with
// several tops must be told apart.
func (n *Nursery) woodOf(t Thing, name fact.Name) (Identity, bool) {
	switch t := t.(type) {
	case *Bundle:
		if t.Noun == fact.Seed {
			n.refuse(name.Span, "wrong-kind", t.Name+" is seed, not wood", t.Name)
			return Identity{}, false
		}
		return Identity{Variety: t.Variety}, n.cutBefore(t, name.Span)
	case *Limb:
		return Identity{Variety: t.Variety}, n.stands(t.Tree, name.Span)
	case *Tree:
		if !n.stands(t, name.Span) {
			return Identity{}, false
		}
		if tops := t.Varieties(); len(tops) > 1 {
			n.refuse(name.Span, "which-top", fmt.Sprintf("%s carries %s; name the limb or the lot of limbs that the wood is from%s",
				t.Name, tops[0].Name+" and "+tops[1].Name, topsHint(t)), t.Name)
			return Identity{}, false
		}
		return t.Identity(), true
	case *Lot:
		return t.Top, n.lotGivesWood(t, name.Span)
	}
	return Identity{}, false
}

func topsHint(t *Tree) string {
	if len(t.Tops) > 0 {
		return ", such as " + t.Tops[0].Name
	}
	if len(t.Limbs) > 0 {
		return ", such as " + t.Limbs[0].Name
	}
	return ""
}

func (n *Nursery) lotGivesWood(l *Lot, at source.Span) bool {
	switch {
	case l.Limbs && !n.stands(l.Mother, at):
		return false
	case l.On[fact.Living] == 0 && l.On[fact.Attached] == 0:
		n.refuse(at, "no-wood", fmt.Sprintf("%s has no living top that could give wood; it holds %s", l.Name, l.states()), l.Name)
		return false
	}
	return true
}

// cutBefore refuses wood that was cut after the day it is used on.
func (n *Nursery) cutBefore(b *Bundle, at source.Span) bool {
	if b.Day <= n.now.Day() {
		return true
	}
	f := n.refuse(at, "wood-not-yet", fmt.Sprintf("%s was cut on %s, after this day; mend one of the days", b.Name, b.Day.Long()), b.Name)
	f.Related = []finding.Related{{File: b.Made.File, Span: b.Made.Span, Message: "cut here"}}
	return false
}

// wood finds the sources of the wood of a graft, which must be of one variety.
func (n *Nursery) wood(names []fact.Name) (Identity, []Source, bool) {
	var id Identity
	list := make([]Source, 0, len(names))
	for i, name := range names {
		t, ok := n.thing(name)
		if !ok {
			return id, nil, false
		}
		one, ok := n.woodOf(t, name)
		if !ok {
			return id, nil, false
		}
		if i > 0 && one != id {
			n.refuse(name.Span, "mixed-wood", fmt.Sprintf("%s is %s and %s is %s; grafts of two varieties are two entries",
				list[0].Label(), id, t.Label(), one), t.Label(), list[0].Label())
			return id, nil, false
		}
		id = one
		list = append(list, Source{Thing: t})
	}
	return id, list, true
}

// use takes scions out of the sources of a graft: of several bundles, the first
// is used up first; a tree gives its scions on the day.
func (n *Nursery) use(from []Source, scions int32) {
	for i, s := range from {
		take := scions
		if b, ok := s.Thing.(*Bundle); ok {
			if left, known := b.Left(); known && i < len(from)-1 {
				take = min(take, max(left, 0))
			}
			n.draw(fact.Grafted, b, take)
		} else {
			if i < len(from)-1 {
				take = scions / int32(len(from)-i)
			}
			credit(s.Thing, take)
		}
		scions -= take
	}
}
