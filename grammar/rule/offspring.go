package rule

import (
	"maps"

	"github.com/budstick/budstick/grammar/nursery"
)

// A taint is what comes from things that bear a mark to this day: of several
// such, the nearest. What one passes on depends on the mark. All that ever met a
// sick plant, in wood or root, may carry what it has. Of one that is not what its
// name says only that concerns which is still part of a plant: not the top that
// failed on a stock which was worked again, and not what a mother stands on. And
// what was verified since is true.
type taint struct {
	marks map[nursery.Source]nursery.Mark
	from  map[nursery.Source]nursery.Source
}

// taintOf finds the taint of a word, once for all rules. It is nil where nothing
// bears the mark.
func (p *pass) taintOf(word string) *taint {
	s := p.scan
	if t, known := s.taints[word]; known {
		return t
	}
	t := &taint{map[nursery.Source]nursery.Mark{}, map[nursery.Source]nursery.Source{}}
	var roots []nursery.Source
	add := func(s nursery.Source, marks []nursery.Mark) {
		if m, ok := nursery.Marked(marks, word, p.Last); ok {
			t.marks[s], t.from[s] = m, s
			roots = append(roots, s)
		}
	}
	for thing := range p.All() {
		add(nursery.Source{Thing: thing}, marksOf(thing))
	}
	for _, v := range p.Varieties {
		add(nursery.Source{Variety: v}, v.Marks)
	}
	switch {
	case len(roots) == 0:
		t = nil
	case word == "sick":
		t.spread(p.Descent().Down(0, roots...))
	default:
		t.spread(p.TopDescent().Down(0, roots...))
		t.spreadUpwards(p.Lots)
	}
	s.taints[word] = t
	return t
}

// spread follows the steps that lead from what is marked; the nearest come first.
func (t *taint) spread(r nursery.Reach) {
	for _, e := range r.Edges {
		by, tainted := t.from[e.From]
		if _, known := t.from[e.To]; tainted && !known && !t.verified(e.To, by) {
			t.from[e.To] = by
		}
	}
}

// spreadUpwards adds the lots that stand on such a part.
func (t *taint) spreadUpwards(lots []*nursery.Lot) {
	top := maps.Clone(t.from)
	for _, l := range lots {
		s := nursery.Source{Thing: l}
		if _, known := top[s]; known {
			continue
		}
		for _, link := range l.PartsBelow() {
			if by, ok := top[link.From]; ok && !t.verified(s, by) {
				t.from[s] = by
				break
			}
		}
	}
}

// verified reports whether something that comes from what is not true to its name
// was itself found true since.
func (t *taint) verified(s, by nursery.Source) bool {
	m := t.marks[by]
	if m.Word != "off-type" || s.Thing == nil {
		return false
	}
	for _, own := range ownMarks(s.Thing) {
		if own.Word == "verified" && own.Cleared == nil && own.Day >= m.Day {
			return true
		}
	}
	return false
}

// of is what a thing's taint comes from, if it bears no such mark itself.
func (t *taint) of(thing nursery.Thing) (bad nursery.Source, m nursery.Mark, ok bool) {
	if t == nil {
		return bad, m, false
	}
	s := nursery.Source{Thing: thing}
	bad, ok = t.from[s]
	return bad, t.marks[bad], ok && bad != s
}

// offspring asks about every lot without a mark of its own that comes from
// something which is marked sick or off-type to this day.
func (p *pass) offspring(ask func(l *nursery.Lot, bad nursery.Source, m nursery.Mark)) {
	p.end(func() {
		sick, untrue := p.taintOf("sick"), p.taintOf("off-type")
		if sick == nil && untrue == nil {
			return
		}
		for _, l := range p.Lots {
			if bad, m, ok := sick.of(l); ok {
				ask(l, bad, m)
			} else if bad, m, ok := untrue.of(l); ok {
				ask(l, bad, m)
			}
		}
	})
}
