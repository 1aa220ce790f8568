package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/grammar/syntax"
)

var unverifiedWood = &Rule{
	Name: "unverified-wood", Severity: finding.Hint,
	Summary: "wood is taken from a tree that nobody has found true to its name",
	Why: "A wrong label on one mother makes hundreds of wrong plants, and it shows at the first fruit, years later. Look at her leaf and fruit once and write " +
		"`mark M7 verified`. Said once for each tree.",
	Bad:  kestrel + "tree M8 variety Amberlight at terrace-3 planted 2015\n2026-03-02\ncut 20 scions from M8 as W8 store cool\n",
	Good: kestrel + "tree M8 variety Amberlight at terrace-3 planted 2015\nmark M8 verified because \"fruit and leaf seen\"\n2026-03-02\ncut 20 scions from M8 as W8 store cool\n",
	check: func(p *pass) {
		said := map[nursery.Thing]bool{}
		p.takings(func(t taking) {
			if t.tree == nil || said[t.thing] {
				return
			}
			said[t.thing] = true
			if !verified(t.thing) {
				p.reportf(t.entry, t.name.Span, []string{t.thing.Label()}, "nothing says that %s is true to its name; when you have seen leaf and fruit, write: mark %s verified",
					t.thing.Label(), syntax.Spell(t.thing.Label()))
			}
		})
	},
}

// verified reports whether a plant, or the tree that it is part of, was ever
// found true to its name.
func verified(t nursery.Thing) bool {
	for _, m := range marksOf(t) {
		if m.Word == "verified" {
			return true
		}
	}
	for _, e := range nursery.TreeOf(t).Entries {
		if f, ok := e.Effect.(*fact.Tend); ok && f.Job.Text == "verified" {
			return true
		}
	}
	return false
}
