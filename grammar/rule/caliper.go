package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

// The rules about how thick stems are.
var (
	caliperRule = &Rule{
		Name: "caliper", Severity: finding.Error, Limits: []string{"caliper-least", "caliper-most"},
		Summary: "a stem is said to be thinner or thicker than a stem of a nursery can be",
		Why:     "A slip of the unit: 9 cm for 9 mm. The limits are wide, and limbs of standing trees are not asked about.",
		Bad:     kestrel + "\n2026-03-02\ngraft 40 of QB25 with M7 by cleft as AM26 caliper 9 cm worker Ines\n",
		Good:    kestrel + "\n2026-03-02\ngraft 40 of QB25 with M7 by cleft as AM26 caliper 9 mm worker Ines\n",
		check: func(p *pass) {
			least, most := p.gauge("caliper-least"), p.gauge("caliper-most")
			ask := func(e *fact.Entry, q fact.Quantity, about string) {
				mm, given := millimetres(q)
				low, lowKnown := least.of(e.Date, nil, nil)
				high, highKnown := most.of(e.Date, nil, nil)
				if given && (lowKnown && mm < low.Value || highKnown && mm > high.Value) {
					p.reportf(e, q.Span, []string{about}, "%s %s is no stem of a nursery, which is from %s to %s thick (%s); is the unit right?",
						q.Value, q.Unit, low, high, high.Mark)
				}
			}
			each(p, func(e *fact.Entry, f *fact.Graft) {
				if f.Noun != fact.Limbs {
					ask(e, f.Caliper, f.As.Text)
				}
			})
			each(p, func(e *fact.Entry, f *fact.Cut) { ask(e, f.Caliper, f.As.Text) })
		},
	}
	stockThin = &Rule{
		Name: "stock-caliper", Severity: finding.Warning, Limits: []string{"stock-caliper"},
		Summary: "stocks are grafted that are thinner than their kind, or the method, needs",
		Why: "On a thin stock the cambiums do not meet and the top outgrows its foot. How thick it should be differs by species, and the bark graft is for stumps. " +
			"Asked only where the caliper is written.",
		Bad:  kestrel + "\n2026-03-02\ngraft 40 of QB25 with M7 by cleft as AM26 caliper 4 mm worker Ines\n",
		Good: kestrel + "\n2026-03-02\ngraft 40 of QB25 with M7 by cleft as AM26 caliper 9 mm worker Ines\n",
		check: func(p *pass) {
			least, possible := p.gauge("stock-caliper"), p.gauge("caliper-least")
			p.grafts(func(b *nursery.Batch, f *fact.Graft) {
				mm, given := millimetres(f.Caliper)
				if !given || b.Limbs {
					return
				}
				if l, ok := possible.of(b.Entry.Date, nil, nil); ok && mm < l.Value {
					return
				}
				if l, ok := least.of(b.Entry.Date, b.Stock.Variety, b.Method); ok && mm < l.Value {
					p.reportf(b.Entry, f.Caliper.Span, []string{b.Lot.Name}, "stocks of %s %s are thin for this; from %s on they are worked (%s)",
						f.Caliper.Value, f.Caliper.Unit, l, l.Mark)
				}
			})
		},
	}
	caliperShrinks = &Rule{
		Name: "caliper-shrinks", Severity: finding.Warning,
		Summary: "stocks are thinner than when they were grafted before",
		Why:     "A stem does not shrink. One of the two numbers is a slip, or other plants were measured.",
		Bad:     kestrel + thick + "graft 8 failed of AM26 with M7 by cleft as AM26b caliper 7 mm worker Ines\n",
		Good:    kestrel + thick + "graft 8 failed of AM26 with M7 by cleft as AM26b caliper 9 mm worker Ines\n",
		check: func(p *pass) {
			p.grafts(func(b *nursery.Batch, f *fact.Graft) {
				mm, given := millimetres(f.Caliper)
				if !given || b.Limbs || b.From == nil || b.From.Batch == nil || b.From.Batch.Kind != nursery.GraftBatch {
					return
				}
				before := b.From.Batch.Entry
				q := before.Effect.(*fact.Graft).Caliper
				if was, given := millimetres(q); given && mm < was {
					fnd := p.reportf(b.Entry, f.Caliper.Span, []string{b.Lot.Name, b.From.Name}, "the stocks of %s were %s %s thick when they were grafted on %s, and %s %s now; mend one of the two",
						b.From.Name, q.Value, q.Unit, before.Day().Long(), f.Caliper.Value, f.Caliper.Unit)
					also(fnd, before, "grafted here")
				}
			})
		},
	}
	caliperMismatch = &Rule{
		Name: "caliper-mismatch", Severity: finding.Warning, Limits: []string{"caliper-mismatch"},
		Summary: "scions are much thicker than the stocks they are set on",
		Why:     "A thick scion on a thin stock meets its cambium on one side at most. Choose thinner wood, or wait for the stock.",
		Bad:     kestrel + "\n2026-03-02\ncut 40 scions from M7 as W7 store cool caliper 14 mm\ngraft 40 of QB25 with W7 by cleft as AM26 caliper 8 mm worker Ines\n",
		Good:    kestrel + "\n2026-03-02\ncut 40 scions from M7 as W7 store cool caliper 8 mm\ngraft 40 of QB25 with W7 by cleft as AM26 caliper 8 mm worker Ines\n",
		check: func(p *pass) {
			most := p.gauge("caliper-mismatch")
			p.grafts(func(b *nursery.Batch, f *fact.Graft) {
				stock, given := millimetres(f.Caliper)
				if !given || b.Limbs {
					return
				}
				for i, s := range b.Wood {
					wood, ok := s.Thing.(*nursery.Bundle)
					if !ok {
						continue
					}
					cut, ok := wood.Made.Effect.(*fact.Cut)
					if !ok {
						continue
					}
					scion, given := millimetres(cut.Caliper)
					if l, ok := most.of(b.Entry.Date, b.Top.Variety, b.Method); ok && given && (scion-stock)*100 > l.Value*stock {
						p.reportf(b.Entry, f.With[i].Span, []string{b.Lot.Name, wood.Name}, "scions of %s are %s %s thick and the stocks %s %s, more than %s thinner (%s)",
							wood.Name, cut.Caliper.Value, cut.Caliper.Unit, f.Caliper.Value, f.Caliper.Unit, l, l.Mark)
					}
				}
			})
		},
	}
)

// thick is a lot of grafts on stocks of 9 mm.
const thick = `
2026-03-02
graft 40 of QB25 with M7 by cleft as AM26 caliper 9 mm worker Ines
2026-03-30
check AM26: 30 took, 8 failed, 2 dead
`

// millimetres is a length in mm; it reports false where none was written.
func millimetres(q fact.Quantity) (float64, bool) {
	per := 0.0
	switch q.Unit {
	case fact.Millimetre:
		per = 1
	case fact.Centimetre:
		per = 10
	case fact.Inch:
		per = 25.4
	}
	return q.Value.Float() * per, q.Given
}
