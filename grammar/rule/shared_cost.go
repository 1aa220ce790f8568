package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/syntax"
)

var sharedCost = &Rule{
	Name: "shared-cost", Severity: finding.Hint,
	Summary: "money is spent, and nothing says for which plants",
	Why: "It is shared by all plants that stand. That is right for water and rent, and wrong for the pots of one lot: with `for` they bear it themselves. " +
		"Said once for each thing that money goes for; where it is meant for all, say how it is shared: `share water by plant-days`.",
	Bad:  kestrel + "spend 64.20 on pots\n",
	Good: kestrel + "spend 64.20 on pots for QB25\n",
	check: func(p *pass) {
		said := map[string]bool{}
		p.entries(func(e *fact.Entry) {
			if f, ok := e.Effect.(*fact.Share); ok {
				for _, label := range f.Labels {
					said[label.Text] = true
				}
			}
		})
		each(p, func(e *fact.Entry, f *fact.Spend) {
			if len(f.For) == 0 && !f.Over.Given && !said[f.On.Text] {
				said[f.On.Text] = true
				p.reportf(e, f.On.Span, []string{f.On.Text}, "%s is shared by all plants that stand this day; if it was for some, add: for AM26, and if for all, say so: share %s by plant-days", f.On.Text, syntax.Spell(f.On.Text))
			}
		})
	},
}
