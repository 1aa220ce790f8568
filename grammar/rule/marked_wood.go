package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

// The two rules about wood from plants that bear a mark against it.
var (
	sickWood = &Rule{
		Name: "sick-wood", Severity: finding.Error,
		Summary: "wood is taken from, or was cut from, a tree that is marked sick",
		Why: "Viruses, cankers and their like travel with the wood into every graft, and from there into other nurseries. What the law asks in such a " +
			"case your plant health authority says.",
		Bad:   kestrel + "mark M7 sick because \"canker on two limbs\"\n2026-03-02\ncut 20 scions from M7 as W7 store cool\n",
		Good:  kestrel + secondTree + "mark M7 sick because \"canker on two limbs\"\n2026-03-02\ncut 20 scions from M8 as W8 store cool\n",
		check: markedWood("sick", "is marked sick since %s; wood from it carries what it has: take it from another tree, or clear the mark"),
	}
	offTypeWood = &Rule{
		Name: "off-type-wood", Severity: finding.Error,
		Summary: "wood is taken from, or was cut from, a tree that is not what its name says",
		Why:     "Every plant made from it is not true either, and is sold under a wrong name.",
		Bad:     kestrel + "mark M7 off-type because \"fruit round\"\n2026-03-02\ncut 20 scions from M7 as W7 store cool\n",
		Good:    kestrel + secondTree + "mark M7 off-type because \"fruit round\"\n2026-03-02\ncut 20 scions from M8 as W8 store cool\n",
		check:   markedWood("off-type", "is marked off-type since %s; wood from it is not the variety: take it from another tree, or declare what it is"),
	}
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
