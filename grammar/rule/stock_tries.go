package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var stockTries = &Rule{
	Name: "stock-tries", Severity: finding.Hint, Limits: []string{"stock-tries"},
	Summary: "stocks are worked again after failing several times",
	Why: "Each cutting back costs a stock vigour and leaves a crook, and five to fifteen in a hundred die of it (rule of thumb). " +
		"After a few rounds a fresh stock is cheaper.",
	Bad:  failing + "2026-07-20\ngraft 2 failed of AMc with M7 by cleft as AMd worker Ines\n",
	Good: failing + "2026-07-20\ncull 2 failed of AMc because \"worked three times\"\n",
	check: func(p *pass) {
		most := p.gauge("stock-tries")
		p.grafts(func(b *nursery.Batch, f *fact.Graft) {
			if l, ok := most.of(b.Entry.Date, b.Stock.Variety, b.Method); ok && float64(b.Ordinal) > l.Value {
				p.reportf(b.Entry, f.Of.Span, []string{b.Lot.Name}, "these stocks have failed %s before; after %s tries a fresh stock is cheaper (%s)", finding.Counted(b.Ordinal-1, "time", "times"), l, l.Mark)
			}
		})
	},
}
