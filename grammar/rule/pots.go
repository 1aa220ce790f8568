package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

// The rules about pots.
var (
	potShrinks = &Rule{
		Name: "pot-shrinks", Severity: finding.Warning,
		Summary: "plants are potted into the same size again, or into a smaller one",
		Why:     "Roots do not fit into less than they had. Mostly the size is a slip, or another lot was potted.",
		Bad:     bench + "pot AM26 to 3 L\n2026-07-20\npot AM26 to 1 L\n",
		Good:    bench + "pot AM26 to 1 L\n2026-07-20\npot AM26 to 3 L\n",
		check: func(p *pass) {
			ask := func(l *nursery.Lot, e *fact.Entry, was nursery.Pot) {
				f, ok := e.Effect.(*fact.Pass)
				if !ok || f.How != fact.Potted || !f.Pot.Given || !was.Size.Given {
					return
				}
				before, kind := potSize(was.Size)
				now, kindNow := potSize(f.Pot)
				if kind == kindNow && now <= before {
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
	potAge = &Rule{
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
)

// potSize is the size of a pot in litres, or in millimetres across.
func potSize(q fact.Quantity) (size float64, volume bool) {
	switch q.Unit {
	case fact.Litre:
		return q.Value.Float(), true
	case fact.Millilitre:
		return q.Value.Float() / 1000, true
	case fact.Gallon:
		return q.Value.Float() * 3.785411784, true
	}
	mm, _ := millimetres(q)
	return mm, false
}
