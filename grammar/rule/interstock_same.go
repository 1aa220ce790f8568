package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var interstockSame = &Rule{
	Name: "interstock-same", Severity: finding.Warning,
	Summary: "an interstock is of the same variety as the top",
	Why:     "A piece of the top's own variety between stock and top changes nothing. Mostly the wrong bundle is named.",
	Bad:     kestrel + secondTree + "\n2026-03-02\ngraft 10 of QB25 with M7 over M8 by cleft as AM26 worker Ines\n",
	Good:    kestrel + twoTops + "\n2026-03-02\nbuy 10 scions of Emberlight as WE26 from Bob\ngraft 10 of QB25 with WE26 over M7/low by cleft as EM26 worker Ines\n" + lowLimb,
	check: func(p *pass) {
		p.grafts(func(b *nursery.Batch, f *fact.Graft) {
			if len(b.Lot.Inter) > 0 && b.Lot.Below[0] == b.Top {
				p.reportf(b.Entry, f.Over.Span, []string{b.Lot.Name}, "the interstock %s and the top are both %s; name the wood of the variety that goes between", f.Over.Text, b.Top)
			}
		})
	},
}
