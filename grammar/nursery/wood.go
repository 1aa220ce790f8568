package nursery

import (
	"fmt"
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/source"
)

func (n *Nursery) cut(f *fact.Cut) {
	if !n.free(f.As) {
		return
	}
	count := int64(f.Count.N)
	switch {
	case f.Noun == fact.Sticks && !f.Buds.Given:
		count = -1
	case f.Noun == fact.Sticks:
		count *= int64(f.Buds.N)
	}
	if !n.bounded(f.Count.Span, 0, count, "scions", f.As.Text) {
		return
	}
	var from []Source
	var of Identity
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
		if len(from) > 0 && id != of {
			n.refuse(name.Span, "mixed-wood", fmt.Sprintf("%s is %s and %s is %s; wood of two varieties is two bundles",
				from[0].Label(), of, t.Label(), id), t.Label(), from[0].Label())
			return
		}
		of = id
		from = append(from, Source{Thing: t})
	}
	if !n.canUse(f.Count.Span, from, count) {
		return
	}
	b := n.makeBundle(f.As, fact.Scions, of)
	b.From, b.Store, b.About, b.Count = from, f.Store.Text, f.Count.About, int32(count)
	n.use(fact.Grafted, from, max(b.Count, 0))
}

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
		return t.Identity(), n.cutBefore(t, name.Span)
	case *Limb:
		return t.Identity(), n.stands(t.Tree, name.Span)
	case *Tree:
		if !n.stands(t, name.Span) || !n.oneTop(t, name.Span, "wood") {
			return Identity{}, false
		}
		if t.State != fact.Living {
			n.refuse(name.Span, "no-wood", fmt.Sprintf("the top of %s is %s, so it gives no wood", t.Name, t.State), t.Name)
			return Identity{}, false
		}
		return t.Identity(), true
	case *Lot:
		return t.Top, n.lotGivesWood(t, name.Span)
	}
	return Identity{}, false
}

// oneTop refuses an entry about a tree with tops of several varieties that does
// not say which of them it means; what is of the top: wood or fruit.
func (n *Nursery) oneTop(t *Tree, at source.Span, what string) bool {
	if len(t.Tops)+len(t.Limbs) == 0 && !t.Beside {
		return true
	}
	tops := t.Identities()
	if len(tops) == 1 {
		return true
	}
	n.refuse(at, "which-top", fmt.Sprintf("%s carries %s and %s; name the limb or the lot of limbs that the %s is from%s",
		t.Name, tops[0], tops[1], what, topsHint(t)), t.Name)
	return false
}

// topsHint is a name of a top that there is, and how the one gets a name that has
// none: that of the tree itself.
func topsHint(t *Tree) string {
	hint := ""
	if len(t.Tops) > 0 {
		hint = ", such as " + t.Tops[0].Name
	} else if len(t.Limbs) > 0 {
		hint = ", such as " + t.Limbs[0].Name
	}
	if slices.ContainsFunc(t.Limbs, func(l *Limb) bool { return l.Variety == t.Variety }) {
		return hint
	}
	return hint + fmt.Sprintf("; the top that is %s gets a name by: limb %s of %s", t.Identity(), spell(t.Name+"/rest"), spell(t.Name))
}

func (n *Nursery) lotGivesWood(l *Lot, at source.Span) bool {
	switch {
	case l.Limbs && !n.stands(l.Mother, at):
		return false
	case l.On[fact.Living]-l.Bare+l.On[fact.Attached] == 0:
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

// canUse refuses an entry that takes more scions or seeds than anyone ever does.
func (n *Nursery) canUse(at source.Span, from []Source, count int64) bool {
	for _, s := range from {
		already := int32(0)
		switch t := s.Thing.(type) {
		case *Bundle:
			already = t.Used + t.Sold + t.Lost
		case *Tree, *Limb, *Lot:
			if tree := TreeOf(t); tree != nil {
				already = tree.Wood
			}
		}
		if !n.bounded(at, already, count, "scions", s.Label()) {
			return false
		}
	}
	return true
}

// use takes scions or seeds out of their sources: of several bundles the first
// is used up first; of several trees each gives its share.
func (n *Nursery) use(how fact.How, from []Source, count int32) {
	for i, s := range from {
		last := i == len(from)-1
		take := count
		b, ok := s.Thing.(*Bundle)
		switch {
		case last:
		case !ok:
			take = count / int32(len(from)-i)
		default:
			if left, known := b.Left(); known {
				take = min(count, max(left, 0))
			}
		}
		switch {
		case take == 0:
		case ok:
			n.draw(how, b, take)
		default:
			credit(s.Thing, take)
		}
		count -= take
	}
}
