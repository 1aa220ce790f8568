package nursery

import (
	"iter"
	"math"

	"github.com/budstick/budstick/grammar/fact"
)

// A Descent answers what came from what, both ways. It is made once for a
// nursery.
//
// A way down from one thing to another is the same way up, so what comes of X
// is exactly what has X among its ancestors. On such a way a standing tree
// passes on what it got later (new roots, limbs worked over) only to what was
// taken from it on that day or after.
type Descent struct {
	parents  func(Source) []Link
	children map[Source][]Source // by what they came from, in the order made
}

// Descent follows every step: all that has a part of something in it, or stood
// on it, whether as scion, stock, interstock or seed.
func (n *Nursery) Descent() *Descent { return n.descent(n.Parents) }

// Genotypes follows only steps that keep the genotype of the top. Nucellar
// seedlings are among them, though some may not be clones; a sport is the
// genotype of the limb that it arose on.
func (n *Nursery) Genotypes() *Descent {
	return n.descent(func(s Source) []Link {
		if s.Thing == nil {
			return nil
		}
		var out []Link
		if own, ok := ownVariety(s.Thing); ok {
			out = append(out, own)
		}
		kept := out[:0]
		for _, l := range append(n.Tops(s.Thing), out...) {
			if same, _ := Clones(s.Thing, l); same {
				kept = append(kept, l)
			}
		}
		return kept
	})
}

// TopDescent follows how the tops of things came to be, by wood and by seed. What they
// stand on, or stood on, is nothing of it.
func (n *Nursery) TopDescent() *Descent {
	return n.descent(func(s Source) []Link {
		if s.Thing == nil {
			return nil
		}
		out := n.Tops(s.Thing)
		if own, ok := ownVariety(s.Thing); ok {
			out = append(out[:len(out):len(out)], own)
		}
		return out
	})
}

func (n *Nursery) descent(parents func(Source) []Link) *Descent {
	d := &Descent{parents, map[Source][]Source{}}
	for s := range n.sources() {
		for _, link := range parents(s) {
			list := d.children[link.From]
			if len(list) == 0 || list[len(list)-1] != s { // else by several steps, which Children tells apart
				d.children[link.From] = append(list, s)
			}
		}
	}
	return d
}

// All goes through every bundle, lot, tree and limb.
func (n *Nursery) All() iter.Seq[Thing] {
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

// sources goes through everything that can have parents.
func (n *Nursery) sources() iter.Seq[Source] {
	return func(yield func(Source) bool) {
		for t := range n.All() {
			if !yield(Source{Thing: t}) {
				return
			}
		}
		for _, v := range n.Varieties {
			if !yield(Source{Variety: v}) {
				return
			}
		}
	}
}

// An Edge is one step between two sources.
type Edge struct {
	To Source
	Link
}

// Children are the steps by which something came from a source.
func (d *Descent) Children(of Source) []Edge {
	var out []Edge
	for _, child := range d.children[of] {
		for _, link := range d.parents(child) {
			if link.From == of {
				out = append(out, Edge{child, link})
			}
		}
	}
	return out
}

// A Reach is all that can be reached from some sources in one direction: the
// sources themselves, then the others, nearest first, and the steps between
// them.
type Reach struct {
	Sources []Source
	Edges   []Edge
}

// Up is what some sources came from. It asks only about what it reaches, so it
// needs no Descent.
func (n *Nursery) Up(from ...Source) Reach {
	w := newWalk(from, math.MaxInt32, func(day, other fact.Date) bool { return day > other })
	for s := range w.queued() {
		until, before, again := w.turn(s)
		for _, l := range n.Parents(s) {
			fresh := !again
			if l.Late {
				fresh = l.Day() <= until && !(again && l.Day() <= before)
			}
			if fresh {
				w.Edges = append(w.Edges, Edge{s, l})
				w.reach(l.From, l.Day())
			}
		}
	}
	return w.Reach
}

// Down is what came of some sources by steps made on a day or after; no day
// means all. That a thing is of a variety is no step made on a day.
func (d *Descent) Down(since fact.Date, from ...Source) Reach {
	w := newWalk(from, 0, func(day, other fact.Date) bool { return day < other })
	for s := range w.queued() {
		first, before, again := w.turn(s)
		for _, e := range d.Children(s) {
			day := e.Day()
			if day < first || again && day >= before || day < since && s.Variety == nil {
				continue
			}
			w.Edges = append(w.Edges, e)
			if !e.Late {
				day = 0
			}
			w.reach(e.To, day)
		}
	}
	return w.Reach
}

// A walk goes from source to source. With each it keeps the day up to which
// (on the way up) or from which (on the way down) its steps count; a source
// that is reached again with a day that lets more steps count has its turn
// again, for those.
type walk struct {
	Reach
	queue  []Source
	day    map[Source]fact.Date
	turned map[Source]fact.Date
	wider  func(day, other fact.Date) bool
}

func newWalk(from []Source, day fact.Date, wider func(day, other fact.Date) bool) *walk {
	w := &walk{day: map[Source]fact.Date{}, turned: map[Source]fact.Date{}, wider: wider}
	for _, s := range from {
		w.reach(s, day)
	}
	return w
}

func (w *walk) reach(s Source, day fact.Date) {
	old, seen := w.day[s]
	if !seen {
		w.Sources = append(w.Sources, s)
	}
	if !seen || w.wider(day, old) {
		w.day[s] = day
		w.queue = append(w.queue, s)
	}
}

// queued takes sources off the queue, while others are put on it.
func (w *walk) queued() iter.Seq[Source] {
	return func(yield func(Source) bool) {
		for ; len(w.queue) > 0; w.queue = w.queue[1:] {
			if !yield(w.queue[0]) {
				return
			}
		}
	}
}

// turn begins a source's turn: the day that counts now, and the one that
// counted when it had its last turn.
func (w *walk) turn(s Source) (now, before fact.Date, again bool) {
	now = w.day[s]
	before, again = w.turned[s]
	w.turned[s] = now
	return now, before, again
}
