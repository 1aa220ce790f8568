package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var stockOld = &Rule{
	Name: "stock-old", Severity: finding.Warning, Limits: []string{"stock-old"},
	Summary: "stocks are grafted that have stood in pots for years",
	Why:     "A stock that is pot-bound has little sap to give, and its roots circle for life.",
	Bad:     kestrel + sownStocks + years + "2030-12-02\ngraft 40 of QA26 with M7 by cleft as AM26 worker Ines\n",
	Good:    kestrel + sownStocks + years + "2029-03-02\ngraft 40 of QA26 with M7 by cleft as AM26 worker Ines\n",
	check: func(p *pass) {
		most := p.gauge("stock-old")
		p.grafts(func(b *nursery.Batch, f *fact.Graft) {
			born, ok := stockBorn(b.From)
			if !ok {
				return
			}
			if l, ok := most.of(b.Entry.Date, b.Stock.Variety, b.Method); ok && b.Day-born > l.Days() {
				p.reportf(b.Entry, f.Of.Span, []string{b.Lot.Name, b.From.Name}, "the stocks of %s are %d months old, and after %s a stock in a pot is past working (%s)",
					b.From.Name, (b.Day-born)/30, l, l.Mark)
			}
		})
	},
}
