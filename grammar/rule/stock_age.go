package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var stockYoung = &Rule{
	Name: "stock-age", Severity: finding.Warning, Limits: []string{"stock-age"},
	Summary: "stocks are grafted that are too young for it",
	Why: "A seedling of a few weeks has no wood to hold a graft, save by the methods made for it (epicotyl, softwood). The least age differs by species. " +
		"Stocks that were bought are of unknown age.",
	Bad:  kestrel + sownStocks + "2026-03-20\ngraft 40 of QA26 with M7 by cleft as AM26 worker Ines\n",
	Good: kestrel + sownStocks + "2026-11-20\ngraft 40 of QA26 with M7 by cleft as AM26 worker Ines\n",
	check: func(p *pass) {
		least := p.gauge("stock-age")
		p.grafts(func(b *nursery.Batch, f *fact.Graft) {
			born, ok := stockBorn(b.From)
			if !ok {
				return
			}
			if l, ok := least.of(b.Entry.Date, b.Stock.Variety, b.Method); ok && b.Day-born < l.Days() {
				p.reportf(b.Entry, f.Of.Span, []string{b.Lot.Name, b.From.Name}, "the stocks of %s are %s old, and such are worked from %s on (%s)",
					b.From.Name, days(b.Day-born), l, l.Mark)
			}
		})
	},
}
