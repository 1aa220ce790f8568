package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var sameOnSame = &Rule{
	Name: "same-on-same", Severity: finding.Warning,
	Summary: "a variety is grafted on plants of the same variety",
	Why:     "The plants were that variety before. Mostly the wrong lot is named, or grafts that took are meant to be stocks.",
	Bad:     bench + "graft 5 of AM26 with M7 by cleft as AM26c worker Ines\n",
	Good:    bench + "graft 5 failed of AM26 with M7 by cleft as AM26c worker Ines\n",
	check: func(p *pass) {
		p.grafts(func(b *nursery.Batch, f *fact.Graft) {
			if b.Top.Variety != nil && b.Top == b.Stock {
				p.reportf(b.Entry, f.Of.Span, []string{b.Lot.Name}, "what is grafted here is %s already, and gets %s; name the lot of stocks, or say failed if those are meant", b.Stock, b.Top)
			}
		})
	},
}
