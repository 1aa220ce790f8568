package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var noKnownUnion = &Rule{
	Name: "no-known-union", Severity: finding.Error,
	Summary: "a scion is set on a stock of another genus, and no success of that pair is known",
	Why: "Within a family some genera unite and most do not. Where you try it, say so with `tag trial`; where you know it to work, allow it for the variety " +
		"with your reason.",
	Bad:  kestrel + plum + "\n2026-03-02\ngraft 40 of PL25 with M7 by cleft as AM26 worker Ines\n",
	Good: kestrel + plum + "\n2026-03-02\ngraft 4 of PL25 with M7 by cleft as AM26 tag trial worker Ines\n",
	check: func(p *pass) {
		p.newUnions(func(b *nursery.Batch, f *fact.Graft, u *union) {
			if u.outcome == unionNone && !isTrial(b.Entry) {
				p.reportf(b.Entry, f.Of.Span, u.about(b), "no success is known of %s (%s) on %s (%s); if you are trying it, write: tag trial",
					u.scion.Name, u.scion.Species, u.stock.Name, u.stock.Species)
			}
		})
	},
}
