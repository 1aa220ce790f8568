package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
)

// offspring asks about every lot without a mark of its own that comes, in wood
// or root, from a plant which is marked sick or off-type to this day.
func (p *pass) offspring(ask func(l *nursery.Lot, bad nursery.Thing, m nursery.Mark)) {
	marked := false
	each(p, func(_ *fact.Entry, f *fact.Mark) { marked = marked || !f.Clear && f.Mark.Text != "verified" })
	p.end(func() {
		if !marked {
			return
		}
		t := tainted{p.Last, map[nursery.Thing]*taint{}}
		for _, l := range p.Lots {
			if _, _, own := standing(l, p.Last); own {
				continue
			}
			if found := t.of(l); found.by != nil {
				ask(l, found.by, found.mark)
			}
		}
	})
}

// standing is the mark against a thing that stands on a day.
func standing(t nursery.Thing, day fact.Date) (nursery.Thing, nursery.Mark, bool) {
	for _, word := range []string{"sick", "off-type"} {
		if m, ok := nursery.Marked(marksOf(t), word, day); ok {
			return t, m, true
		}
	}
	return nil, nursery.Mark{}, false
}

// tainted remembers what is known of each thing.
type tainted struct {
	day  fact.Date
	seen map[nursery.Thing]*taint
}

// taint is what a thing comes from that is marked, or nothing.
type taint struct {
	by   nursery.Thing
	mark nursery.Mark
}

// of follows a thing back to something that is marked.
func (t tainted) of(thing nursery.Thing) *taint {
	if known := t.seen[thing]; known != nil {
		return known
	}
	found := &taint{}
	t.seen[thing] = found // sources are older than what comes from them, so there is no loop
	if by, m, ok := standing(thing, t.day); ok {
		found.by, found.mark = by, m
		return found
	}
	for _, list := range sourcesOf(thing) {
		for _, s := range list {
			if s.Thing == nil {
				continue
			}
			if from := t.of(s.Thing); from.by != nil {
				*found = *from
				return found
			}
		}
	}
	return found
}

// sourcesOf is what a thing comes from: its wood and its roots.
func sourcesOf(thing nursery.Thing) [][]nursery.Source {
	switch t := thing.(type) {
	case *nursery.Lot:
		return [][]nursery.Source{t.Wood, t.Inter, t.Roots}
	case *nursery.Bundle:
		return [][]nursery.Source{t.From}
	case *nursery.Tree:
		return [][]nursery.Source{{t.From}}
	}
	return nil
}
