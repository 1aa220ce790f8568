package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var differentFamilies = &Rule{
	Name: "different-families", Severity: finding.Error,
	Summary: "a scion is set on a stock of another botanical family",
	Why:     "Such a graft does not unite. Mostly a variety is declared under the wrong species, or the wrong lot is named.",
	Bad:     kestrel + mango + "\n2026-03-02\ngraft 40 of MG25 with M7 by cleft as AM26 worker Ines\n",
	Good:    kestrel + mango + "\n2026-03-02\ngraft 40 of QB25 with M7 by cleft as AM26 worker Ines\n",
	check: func(p *pass) {
		p.newUnions(func(b *nursery.Batch, f *fact.Graft, u *union) {
			if u.outcome == unionFamilies {
				p.reportf(b.Entry, f.Of.Span, u.about(b), "%s (%s, %s) does not unite with %s (%s, %s): different families; mend the lot, the wood or a variety's species",
					u.scion.Name, u.scion.Species, u.families[1], u.stock.Name, u.stock.Species, u.families[0])
			}
		})
		each(p, func(e *fact.Entry, f *fact.Tree) {
			top, ok := p.Variety(f.Variety.Text)
			stock, ok2 := p.Variety(f.On.Text)
			if !ok || !ok2 || !f.On.Given() {
				return
			}
			if u := p.union(stock, top); u.outcome == unionFamilies {
				p.reportf(e, f.On.Span, []string{f.Name.Text}, "%s (%s) does not unite with %s (%s): different families; mend the tree's rootstock or a variety's species",
					top.Name, u.families[1], stock.Name, u.families[0])
			}
		})
	},
}
