package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
)

var missingPlants = &Rule{
	Name: "missing", Severity: finding.Warning, Limits: []string{"missing"},
	Summary: "a stocktake accepts that many plants are missing",
	Why:     "One or two are always miscounted. More were sold, moved or thrown out without a word, and that is worth finding out while someone remembers.",
	Bad:     bench + "count AM26 30, 8 missing\n",
	Good:    bench + "count AM26 37, 1 missing\n",
	check: func(p *pass) {
		most := p.gauge("missing")
		each(p, func(e *fact.Entry, f *fact.Stocktake) {
			l := p.lot(f.Lots[0])
			if l == nil || f.Missing.N <= 2 {
				return
			}
			book := f.Count.N + f.Missing.N
			if limit, ok := most.of(e.Date, l.Top.Variety, nil); ok && float64(f.Missing.N)*100 > limit.Value*float64(book) {
				p.reportf(e, f.Missing.Span, []string{l.Name}, "%d of %d %s missing and nobody knows why, more than %s (%s); was a sale, a loss or a move not written?",
					f.Missing.N, book, finding.Either(f.Missing.N, "is", "are"), limit, limit.Mark)
			}
		})
	},
}
