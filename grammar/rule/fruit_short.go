package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var fruitShort = &Rule{
	Name: "fruit-short", Severity: finding.Hint,
	Summary: "more fruit left a tree than was ever picked from it",
	Why: "A pick that was not written, or a slip in a weight, and the tree's record is wrong either way. Only trees of which picks are written by weight " +
		"are asked, and none that was ever picked together with others.",
	Bad:  bench + "2026-05-20\npick 20 kg from M7\nsell 31 kg fruit of M7 to Bob at 3.20 per kg\n",
	Good: bench + "2026-05-20\npick 32 kg from M7\nsell 31 kg fruit of M7 to Bob at 3.20 per kg\n",
	check: func(p *pass) {
		crops := map[*nursery.Tree]*crop{}
		of := func(n fact.Name) *crop {
			t := nursery.TreeOf(p.thing(n))
			if t != nil && crops[t] == nil {
				crops[t] = &crop{}
			}
			return crops[t]
		}
		each(p, func(_ *fact.Entry, f *fact.Pick) {
			kg, weighed := f.Mass.In(fact.Kilogram)
			for _, n := range f.From {
				if c := of(n); c != nil {
					c.picked += kg
					c.blurred = c.blurred || !weighed || len(f.From) > 1
				}
			}
		})
		each(p, func(e *fact.Entry, f *fact.Leave) {
			kg, weighed := f.Quantity.In(fact.Kilogram)
			c := of(f.Of)
			if f.Noun != fact.Fruit || !weighed || c == nil {
				return
			}
			c.left += kg
			if c.picked > 0 && !c.blurred && c.left > c.picked+smallestMass && !c.said {
				c.said = true
				p.reportf(e, f.Quantity.Span, []string{f.Of.Text}, "with these %.4g kg of fruit have left %s, and only %.4g kg were picked; write the pick that is missing, or mend a weight",
					c.left, nursery.TreeOf(p.thing(f.Of)).Label(), c.picked)
			}
		})
	},
}

// A crop is what a tree bore so far, in kilograms; it is blurred where that is
// not known.
type crop struct {
	picked, left  float64
	blurred, said bool
}

// smallestMass is less than any scale shows, in kilograms.
const smallestMass = 1e-6
