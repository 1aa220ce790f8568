package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var potShrinks = &Rule{
	Name: "pot-shrinks", Severity: finding.Warning,
	Summary: "plants are potted into the same size again, or into a smaller one",
	Why: "Roots do not fit into less than they had. Mostly the size is a slip, or another lot was potted. " +
		"Layers that were severed after the others had been potted may go into the size that those have, or as a lot of their own into any.",
	Bad:  bench + "pot AM26 to 3 L\n2026-07-20\npot AM26 to 1 L\n",
	Good: bench + "pot AM26 to 1 L\n2026-07-20\npot AM26 to 3 L\n",
	check: func(p *pass) {
		ask := func(l *nursery.Lot, e *fact.Entry, was nursery.Pot) {
			f, ok := e.Effect.(*fact.Pass)
			if !ok || f.How != fact.Potted || !f.Pot.Given || !was.Size.Given {
				return
			}
			before, kind := potSize(was.Size)
			now, kindNow := potSize(f.Pot)
			fresh := severedSincePotted(p.lot(f.Lot), e) && (now == before || f.As.Given())
			if kind == kindNow && now <= before && !fresh {
				p.reportf(e, f.Pot.Span, []string{f.Lot.Text, l.Name}, "%s stands in %s by the book, and %s %s is no more; mend the size, or the lot", f.Lot.Text, was, f.Pot.Value, f.Pot.Unit)
			}
		}
		p.lots(func(l *nursery.Lot) {
			if l.How == fact.Potted {
				from, _ := l.Roots[0].Thing.(*nursery.Lot)
				ask(l, l.Made, from.SpotOn(l.Made.Date).Pot)
			}
			for i := 1; i < len(l.Spots); i++ {
				ask(l, l.Spots[i].By, l.Spots[i-1].Pot)
			}
		})
	},
}

// severedSincePotted reports whether plants left the mother into a lot after it
// was last potted before an entry: those stand in no pot yet.
func severedSincePotted(l *nursery.Lot, before *fact.Entry) bool {
	fresh := false
	for _, e := range l.Entries {
		if e == before {
			break
		}
		if f, ok := e.Effect.(*fact.Pass); ok && !f.As.Given() {
			fresh = f.How == fact.Severed || fresh && f.How != fact.Potted
		}
	}
	return fresh
}
