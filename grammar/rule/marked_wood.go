package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
)

// markedWood asks whether wood is taken on a day on which the plant, or what it
// comes from, bears a mark, or grafts are made with a bundle from one that does by
// then. It says what to do about a plant that is marked, and about one that comes
// from such.
func markedWood(word, says, saysOfOffspring string) func(*pass) {
	return func(p *pass) {
		report := func(e *fact.Entry, name fact.Name, t nursery.Thing) bool {
			m, ok := nursery.Marked(marksOf(t), word, e.Day())
			if ok {
				f := p.reportf(e, name.Span, []string{name.Text, t.Label()}, "%s is marked %s since %s; "+says, t.Label(), word, m.Day.Long())
				also(f, m.Entry, "marked here")
			}
			return ok
		}
		inherited := func(e *fact.Entry, name fact.Name, t nursery.Thing) {
			if bad, m, ok := p.taintOf(word).of(t); ok && m.Day <= e.Day() {
				f := p.reportf(e, name.Span, []string{name.Text, t.Label(), bad.Label()}, "%s comes from %s, which is marked %s since %s; "+saysOfOffspring, t.Label(), bad.Label(), word, m.Day.Long())
				also(f, m.Entry, "marked here")
			}
		}
		var later []func()
		ask := func(e *fact.Entry, name fact.Name, bears []nursery.Thing, comes nursery.Thing) {
			for _, t := range bears {
				if report(e, name, t) {
					return
				}
			}
			later = append(later, func() { inherited(e, name, comes) })
		}
		p.takings(func(t taking) { ask(t.entry, t.name, []nursery.Thing{t.thing}, t.thing) })
		each(p, func(e *fact.Entry, f *fact.Graft) {
			for _, name := range f.With {
				if b, ok := p.thing(name).(*nursery.Bundle); ok {
					ask(e, name, bundleOf(b), b)
				}
			}
		})
		p.end(func() {
			for _, ask := range later {
				ask()
			}
		})
	}
}

// bundleOf are the plants that wood was cut from.
func bundleOf(b *nursery.Bundle) (plants []nursery.Thing) {
	for _, s := range b.From {
		if s.Thing != nil {
			plants = append(plants, s.Thing)
		}
	}
	return plants
}
