package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var graftedWhileWaiting = &Rule{
	Name: "grafted-while-waiting", Severity: finding.Warning,
	Summary: "grafts are worked again before their check",
	Why: "The first attempt leaves without a verdict, and a bud that only slept is cut off. Check first; those that failed are grafted with " +
		"`graft 10 failed of …`.",
	Bad:  kestrel + "\n2026-03-02\ngraft 40 of QB25 with M7 by cleft as AM26 worker Ines\n2026-03-20\ngraft 10 waiting of AM26 with M7 by cleft as AM26b worker Ines\n",
	Good: bench + "graft 8 failed of AM26 with M7 by cleft as AM26b worker Ines\n",
	check: func(p *pass) {
		p.grafts(func(b *nursery.Batch, f *fact.Graft) {
			if f.State == fact.Waiting && b.From != nil {
				p.reportf(b.Entry, f.Of.Span, []string{b.Lot.Name, b.From.Name}, "%d of %s are grafted again while they wait for their check, and the first attempt is never judged; check %s first",
					b.Made, b.From.Name, b.From.Name)
			}
		})
	},
}
