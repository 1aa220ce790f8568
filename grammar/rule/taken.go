package rule

import (
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
)

// A taking is wood (or layers, or scions sold) that an entry takes straight
// from a plant.
type taking struct {
	entry  *fact.Entry
	name   fact.Name     // as the entry names the plant
	thing  nursery.Thing // a *nursery.Tree, *nursery.Limb or *nursery.Lot
	tree   *nursery.Tree // that it is, or is part of; nil for a lot of plants
	scions int32         // how many; -1 where it is not known
	graft  bool          // set the same day
}

// takings asks about all wood that is taken straight from plants, in order.
func (p *pass) takings(ask func(taking)) {
	s := p.scan
	if s.takings == nil {
		p.findTakings()
	}
	s.takings = append(s.takings, ask)
}

// findTakings looks for takings, once for all rules that ask about them.
func (p *pass) findTakings() {
	s := p.scan
	from := func(e *fact.Entry, names []fact.Name, scions int32, graft bool) {
		for _, name := range names {
			t := s.thing(name.Text)
			if _, wood := t.(*nursery.Bundle); t == nil || wood {
				continue
			}
			for _, ask := range s.takings {
				ask(taking{e, name, t, nursery.TreeOf(t), share(scions, len(names)), graft})
			}
		}
	}
	each(p, func(e *fact.Entry, f *fact.Cut) {
		scions := f.Count.N
		if f.Noun == fact.Sticks {
			scions = -1
			if f.Buds.Given {
				scions = f.Count.N * f.Buds.N
			}
		}
		from(e, f.From, scions, false)
	})
	each(p, func(e *fact.Entry, f *fact.Graft) {
		each := int32(1)
		if f.Scions.Given {
			each = f.Scions.N
		}
		from(e, f.With, f.Count.N*each, true)
		if f.Over.Given() {
			from(e, []fact.Name{f.Over}, f.Count.N, true)
		}
	})
	each(p, func(e *fact.Entry, f *fact.Layer) {
		if !f.Again {
			from(e, []fact.Name{f.On}, 0, false)
		}
	})
	each(p, func(e *fact.Entry, f *fact.Begin) {
		if f.How == fact.Stuck {
			from(e, []fact.Name{f.Of}, f.Count.N, false)
		}
	})
	each(p, func(e *fact.Entry, f *fact.Leave) {
		if f.Noun == fact.Scions && f.How != fact.Lost {
			from(e, []fact.Name{f.Of}, f.Count.N, false)
		}
	})
}

// share is the part of some scions that one of several plants gives.
func share(scions int32, among int) int32 {
	if scions < 0 {
		return scions
	}
	return scions / int32(among)
}

// ownMarks are the marks that a plant was given.
func ownMarks(t nursery.Thing) []nursery.Mark {
	switch t := t.(type) {
	case *nursery.Tree:
		return t.Marks
	case *nursery.Limb:
		return t.Marks
	case *nursery.Lot:
		return t.Marks
	}
	return nil
}

// marksOf are the marks that a plant bears, with those of the tree that it is
// part of. That a tree is not what its name says is nothing against a limb of
// another variety, or one that was worked over.
func marksOf(t nursery.Thing) []nursery.Mark {
	own, tree := ownMarks(t), nursery.TreeOf(t)
	if tree == nil || tree == t {
		return own
	}
	limb, named := t.(*nursery.Limb)
	ofItsName := named && limb.Variety == tree.Variety
	out := slices.Clone(own)
	for _, m := range tree.Marks {
		if ofItsName || m.Word != "off-type" {
			out = append(out, m)
		}
	}
	return out
}
