package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
)

var foundPlants = &Rule{
	Name: "over-count", Severity: finding.Warning,
	Summary: "a stocktake finds more plants than there can be",
	Why:     "Plants do not come from nothing: seed came up late, two lots stand mixed, or a sowing, a return or a split was not written.",
	Bad:     bench + "count AM26 41, 3 over\n",
	Good:    bench + "count AM26 38\n",
	check: func(p *pass) {
		each(p, func(e *fact.Entry, f *fact.Stocktake) {
			if f.Over.N > 0 && p.lot(f.Lots[0]) != nil {
				p.reportf(e, f.Over.Span, []string{f.Lots[0].Text}, "%d more stand in %s than came in; look for an entry that is missing, or for plants of another lot", f.Over.N, f.Lots[0].Text)
			}
		})
	},
}
