package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var scionsPerStock = &Rule{
	Name: "scions-per-stock", Severity: finding.Warning, Limits: []string{"scions-per-stock"},
	Summary: "more scions are set on each stock than one mostly carries",
	Why:     "A potted stock gets one scion, or two for safety. Limbs and stumps of standing trees, which carry more, are not asked about.",
	Bad:     kestrel + "\n2026-03-02\ngraft 10 of QB25 with M7 by cleft as AM26 scions 5 worker Ines\n",
	Good:    kestrel + "\n2026-03-02\ngraft 10 of QB25 with M7 by cleft as AM26 scions 2 worker Ines\n",
	check: func(p *pass) {
		many, most := p.gauge("scions-per-stock"), p.gauge("scions-most")
		p.grafts(func(b *nursery.Batch, f *fact.Graft) {
			scions := float64(b.ScionsEach)
			l, ok := many.of(b.Entry.Date, b.Stock.Variety, b.Method)
			if top, known := most.of(b.Entry.Date, b.Stock.Variety, b.Method); !ok || b.Limbs || scions <= l.Value || known && scions > top.Value {
				return
			}
			p.reportf(b.Entry, f.Scions.Span, []string{b.Lot.Name}, "%d scions on each stock are many; %s is the most one mostly carries (%s)", b.ScionsEach, l, l.Mark)
		})
	},
}
