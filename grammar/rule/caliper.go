package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
)

var caliperRule = &Rule{
	Name: "caliper", Severity: finding.Error, Limits: []string{"caliper-least", "caliper-most"},
	Summary: "a stem is said to be thinner or thicker than a stem of a nursery can be",
	Why:     "A slip of the unit: 9 cm for 9 mm. The limits are wide, and limbs of standing trees are not asked about.",
	Bad:     kestrel + "\n2026-03-02\ngraft 40 of QB25 with M7 by cleft as AM26 caliper 9 cm worker Ines\n",
	Good:    kestrel + "\n2026-03-02\ngraft 40 of QB25 with M7 by cleft as AM26 caliper 9 mm worker Ines\n",
	check: func(p *pass) {
		least, most := p.gauge("caliper-least"), p.gauge("caliper-most")
		ask := func(e *fact.Entry, q fact.Quantity, about string) {
			mm, given := q.In(fact.Millimetre)
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
