package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var potAge = &Rule{
	Name: "pot-age", Severity: finding.Hint, Limits: []string{"pot-age"},
	Summary: "plants have stood in one pot for very long",
	Why:     "Roots that circle in a pot do so for life, and the plant loses value each month. Pot it on, sell it or cull it.",
	Bad:     bench + "pot AM26 to 3 L\n2026-12-20\ncount AM26 38\n2027-12-20\ncount AM26, QB25 98\n",
	Good:    bench + "pot AM26 to 3 L\n2026-12-20\npot AM26 to 7 L\n2027-12-20\ncount AM26, QB25 98\n",
	check: func(p *pass) {
		most := p.gauge("pot-age")
		p.lots(func(l *nursery.Lot) {
			if l.Pot.Since == 0 || p.Last-l.Pot.Since < 90 || l.Free(fact.AnyState) == 0 {
				return
			}
			if limit, ok := most.of(p.Last, l.Top.Variety, nil); ok && p.Last-l.Pot.Since > limit.Days() {
				p.reportf(l.Made, firstLine(l.Made), []string{l.Name}, "%s of %s have stood in their pots (%s) for %d months; by %s the roots circle (%s)",
					plants(l.Free(fact.AnyState)), l.Name, l.Pot, (p.Last-l.Pot.Since)/30, limit, limit.Mark)
			}
		})
	},
}
