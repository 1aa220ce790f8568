package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
)

// markedWood asks whether wood is taken on a day on which the plant bears a
// mark, or grafts are made with a bundle from one that does by then.
func markedWood(word, says string) func(*pass) {
	return func(p *pass) {
		report := func(e *fact.Entry, name fact.Name, t nursery.Thing) {
			if m, ok := nursery.Marked(marksOf(t), word, e.Day()); ok {
				f := p.reportf(e, name.Span, []string{name.Text, t.Label()}, "%s "+says, t.Label(), m.Day.Long())
				also(f, m.Entry, "marked here")
			}
		}
		p.takings(func(t taking) { report(t.entry, t.name, t.thing) })
		each(p, func(e *fact.Entry, f *fact.Graft) {
			for _, name := range f.With {
				if b, ok := p.thing(name).(*nursery.Bundle); ok {
					for _, s := range b.From {
						if s.Thing != nil {
							report(e, name, s.Thing)
						}
					}
				}
			}
		})
	}
}
