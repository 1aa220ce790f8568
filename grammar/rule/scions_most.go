package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var scionsMost = &Rule{
	Name: "scions-most", Severity: finding.Error, Limits: []string{"scions-most"},
	Summary: "more scions are set on each stock than there is room for",
	Why:     "Mostly the number of grafts is written for the number of scions on each. Limbs and stumps of standing trees are not asked about.",
	Bad:     kestrel + "\n2026-03-02\ngraft 10 of QB25 with M7 by cleft as AM26 scions 12 worker Ines\n",
	Good:    kestrel + "\n2026-03-02\ngraft 10 of QB25 with M7 by cleft as AM26 scions 2 worker Ines\n",
	check: func(p *pass) {
		most := p.gauge("scions-most")
		p.grafts(func(b *nursery.Batch, f *fact.Graft) {
			if l, ok := most.of(b.Entry.Date, b.Stock.Variety, b.Method); ok && !b.Limbs && float64(b.ScionsEach) > l.Value {
				p.reportf(b.Entry, f.Scions.Span, []string{b.Lot.Name}, "%d scions do not fit on one stock, which has room for %s at most (%s); scions is the number on each stock",
					b.ScionsEach, l, l.Mark)
			}
		})
	},
}
