package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
)

var noBuyer = &Rule{
	Name: "no-buyer", Severity: finding.Hint,
	Summary: "plants are sold, and nothing says to whom",
	Why:     "A recall can't reach a buyer who is not written down, and between nurseries the law mostly asks for the name (in the European Union: Regulation 2016/2031, article 69).",
	Bad:     bench + "2026-11-20\nsell 5 of AM26 at 19.00 each\n",
	Good:    bench + "2026-11-20\nsell 5 of AM26 to Bob at 19.00 each\n",
	check: func(p *pass) {
		each(p, func(e *fact.Entry, f *fact.Leave) {
			if f.How == fact.Sold && !f.To.Given() && f.Noun != fact.Fruit && p.thing(f.Of) != nil {
				p.reportf(e, firstLine(e), []string{f.Of.Text}, "nothing says to whom %s was sold, so a recall could not reach them; add: to …, a name or a market", f.Of.Text)
			}
		})
	},
}
