package nursery

import (
	"slices"

	"github.com/budstick/budstick/grammar/fact"
)

// A Link says that a thing came from a source, and by which step.
type Link struct {
	From  Source
	Step  Step
	Entry *fact.Entry // that made the step; nil for what was only declared
	Count int32       // plants, scions or seeds that took it; 0 where it is not known
	OneOf bool        // each plant came from one of several such sources
}

// A Step is how something came from something else.
type Step uint8

// The steps. Scion, Interstock and StockOf are the parts of a graft; the steps
// up to Kept are vegetative and keep the genotype, Seedling begins a new one.
const (
	Scion      Step = iota + 1
	Interstock      // the piece between scion and stock
	StockOf         // the roots
	LimbOf          // the standing tree whose limbs were worked
	LayerOf         // a branch rooted on the tree
	CuttingOf       // a cutting
	WoodOf          // wood cut from it
	Kept            // the same plants in another lot, or set out as a tree
	Seedling        // its seed
	BoughtFrom      // brought in from a party
	RootsFrom       // a seedling grafted in as new roots
)

var steps = [...]string{"", "scion", "interstock", "stock", "limb", "layer", "cutting", "wood", "same plants", "seed", "bought", "new roots"}

func (s Step) String() string { return steps[s] }

// Parents are what a thing came from, one step back. Stocks that were released
// from a graft that failed go back to the stocks they were, not to the scion.
func (n *Nursery) Parents(t Thing) []Link {
	switch t := t.(type) {
	case *Lot:
		return t.parents()
	case *Bundle:
		return t.parents()
	case *Limb:
		return []Link{{From: Source{Thing: t.Tree}, Step: LimbOf, Entry: t.Made}}
	case *Tree:
		return t.parents()
	}
	return nil
}

func links(from []Source, step Step, e *fact.Entry, count int32) []Link {
	out := make([]Link, len(from))
	for i, s := range from {
		out[i] = Link{s, step, e, count, len(from) > 1}
		if s.Thing == nil && s.Party != nil {
			out[i].Step = BoughtFrom
		}
	}
	return out
}

func (b *Bundle) parents() []Link {
	step := WoodOf
	if b.Noun == fact.Seed {
		step = Seedling
	}
	return links(b.From, step, b.Made, max(b.Count, 0))
}

func (t *Tree) parents() []Link {
	var out []Link
	if t.From != (Source{}) {
		out = links([]Source{t.From}, Kept, t.Made, 1)
		if b, ok := t.From.Thing.(*Bundle); ok && b.Noun != fact.Seed {
			out[0].Step = Scion
		}
	}
	return append(out, t.Inarched...)
}

func (l *Lot) parents() []Link {
	count := l.Entered
	switch l.How {
	case fact.Sown:
		return links(l.Roots, Seedling, l.Made, count)
	case fact.Stuck:
		return links(l.Roots, CuttingOf, l.Made, count)
	case fact.Layered:
		step := LayerOf
		if len(l.Roots) == 1 {
			if _, again := l.Roots[0].Thing.(*Lot); again && !l.Roots[0].Thing.(*Lot).Limbs {
				step = Kept // layered again
			}
		}
		return links(l.Roots, step, l.Made, count)
	case fact.Grafted:
		out := links(l.Wood, Scion, l.Made, count)
		out = append(out, links(l.Inter, Interstock, l.Made, count)...)
		if l.Limbs {
			return append(out, Link{From: Source{Thing: l.Mother}, Step: LimbOf, Entry: l.Made, Count: count})
		}
		return append(out, links(l.Roots, StockOf, l.Made, count)...)
	case fact.Released:
		return l.releasedFrom()
	}
	return links(l.Roots, Kept, l.Made, count)
}

// releasedFrom is the stock line of the graft whose top failed: the nearest lot
// that was itself grafted, through splits and joins, gives its stocks (and the
// interstock, where that lives).
func (l *Lot) releasedFrom() []Link {
	var out []Link
	for _, s := range l.Roots {
		from, ok := s.Thing.(*Lot)
		for ok && from.How != fact.Grafted && len(from.Roots) == 1 {
			from, ok = from.Roots[0].Thing.(*Lot)
		}
		if !ok || from.How != fact.Grafted {
			out = append(out, links([]Source{s}, Kept, l.Made, l.Entered)...)
			continue
		}
		out = append(out, links(from.Roots, Kept, l.Made, l.Entered)...)
		if len(l.Below) > 0 && len(from.Inter) > 0 {
			out = append(out, links(from.Inter, Interstock, from.Made, l.Entered)...)
		}
	}
	return out
}

// A Descent answers what came from what, both ways. It is made once for a
// nursery.
type Descent struct {
	n        *Nursery
	children map[Source][]Child // by what they came from, in the order made
}

// A Child is a thing that came from another by one step. Two steps between the
// same two things (a graft whose stock and scion are of one lot) are two.
type Child struct {
	Thing Thing
	Step  Step
}

// Clones reports whether a child by this step is (at its top) the same genotype
// as what it came from.
func (c Child) Clones() bool {
	switch c.Step {
	case Scion, LayerOf, CuttingOf, WoodOf, Kept:
		return true
	case LimbOf:
		_, limb := c.Thing.(*Limb)
		return limb
	}
	return false
}

// NewDescent turns the links of every thing around.
func NewDescent(n *Nursery) *Descent {
	d := &Descent{n: n, children: map[Source][]Child{}}
	for t := range n.All() {
		for _, link := range n.Parents(t) {
			d.children[link.From] = append(d.children[link.From], Child{t, link.Step})
		}
	}
	return d
}

// All goes through every bundle, lot, tree and limb.
func (n *Nursery) All() func(yield func(Thing) bool) {
	return func(yield func(Thing) bool) {
		for _, b := range n.Bundles {
			if !yield(b) {
				return
			}
		}
		for _, l := range n.Lots {
			if !yield(l) {
				return
			}
		}
		for _, t := range n.Trees {
			if !yield(t) {
				return
			}
		}
		for _, l := range n.Limbs {
			if !yield(l) {
				return
			}
		}
	}
}

// Children are the things that came from a source by one step.
func (d *Descent) Children(of Source) []Child { return d.children[of] }

// Descendants are all things that came from any of the sources, by any number
// of steps, without the sources themselves: nearest first.
func (d *Descent) Descendants(from ...Source) []Thing {
	return d.walk(from, func(Child) bool { return true })
}

// Clones are the descendants whose top is the same genotype as the source:
// those whom it concerns if the source proves off-type.
func (d *Descent) Clones(from ...Source) []Thing { return d.walk(from, Child.Clones) }

// Ancestors are all things and parties that a thing came from, nearest first.
func (d *Descent) Ancestors(of Thing) []Source {
	var out []Source
	seen := map[Source]bool{{Thing: of}: true}
	for queue := []Source{{Thing: of}}; len(queue) > 0; queue = queue[1:] {
		if queue[0].Thing == nil {
			continue
		}
		for _, link := range d.n.Parents(queue[0].Thing) {
			if !seen[link.From] {
				seen[link.From] = true
				out = append(out, link.From)
				queue = append(queue, link.From)
			}
		}
	}
	return out
}

func (d *Descent) walk(from []Source, follow func(Child) bool) []Thing {
	var out []Thing
	seen := map[Source]bool{}
	for _, s := range from {
		seen[s] = true
	}
	for queue := slices.Clone(from); len(queue) > 0; queue = queue[1:] {
		for _, c := range d.children[queue[0]] {
			if s := (Source{Thing: c.Thing}); follow(c) && !seen[s] {
				seen[s] = true
				out = append(out, c.Thing)
				queue = append(queue, s)
			}
		}
	}
	return out
}
