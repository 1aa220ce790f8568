package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

// The two rules about the offspring of plants that turned out bad.
var (
	recallRule = &Rule{
		Name: "recall", Severity: finding.Error,
		Summary: "plants are on hand that come from one marked sick or off-type",
		Why: "A mother that turns out sick or untrue, often years later at the first fruit, has passed it on to all that was made from her. " +
			"Mark the lot too, so that nobody sells it, cull it, or clear the mother's mark.",
		Bad:  bench + "2026-07-20\nmark M7 off-type because \"fruit round\"\n",
		Good: bench + "2026-07-20\nmark M7 off-type because \"fruit round\"\nmark AM26 off-type because \"from M7\"\n",
		check: func(p *pass) {
			p.offspring(func(l *nursery.Lot, bad nursery.Thing, m nursery.Mark) {
				if on := l.On[fact.Living] + l.On[fact.Attached] + l.On[fact.Waiting]; on > 0 {
					f := p.reportf(l.Made, firstLine(l.Made), []string{l.Name, bad.Label()}, "%d of %s are on hand that come from %s, which is marked %s since %s; mark %s too, or cull it",
						on, l.Name, bad.Label(), m.Word, m.Day.Long(), l.Name)
					also(f, m.Entry, "marked here")
				}
			})
		},
	}
	recallSold = &Rule{
		Name: "recall-sold", Severity: finding.Warning,
		Summary: "plants were sold that come from one marked sick or off-type",
		Why:     "The buyers should hear of it from you. The sales are in the lot's history; marking the lot says that it was dealt with.",
		Bad:     bench + "2026-11-20\nsell 30 of AM26 to Bob at 19.00 each\n2027-01-10\nmark M7 off-type because \"fruit round\"\n",
		Good:    bench + "2026-11-20\nsell 30 of AM26 to Bob at 19.00 each\n2027-01-10\nmark M7 off-type because \"fruit round\"\nmark AM26 off-type because \"from M7; Bob was told\"\n",
		check: func(p *pass) {
			p.offspring(func(l *nursery.Lot, bad nursery.Thing, m nursery.Mark) {
				if out := l.Out[fact.Sold] + l.Out[fact.Given] - l.Returned; out > 0 {
					f := p.reportf(l.Made, firstLine(l.Made), []string{l.Name, bad.Label()}, "%d of %s went to buyers and come from %s, which is marked %s since %s; tell the buyers, then mark %s too",
						out, l.Name, bad.Label(), m.Word, m.Day.Long(), l.Name)
					also(f, m.Entry, "marked here")
				}
			})
		},
	}
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
