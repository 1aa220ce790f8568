package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
)

var hormoneStrength = &Rule{
	Name: "hormone-strength", Severity: finding.Warning, Limits: []string{"hormone-least", "hormone-most"},
	Summary: "a rooting hormone is far stronger or weaker than any that is sold",
	Why:     "A slip of the unit: 0.3 % is 3000 ppm. The limits only catch slips; how strong a product may be used, and with which protection, is for its label to say.",
	Bad:     kestrel + "layer 8 on M7 as AL26 hormone IBA 3000 % worker Ines\n",
	Good:    kestrel + "layer 8 on M7 as AL26 hormone IBA 3000 ppm worker Ines\n",
	check: func(p *pass) {
		least, most := p.gauge("hormone-least"), p.gauge("hormone-most")
		ask := func(e *fact.Entry, r fact.Rooting, as string) {
			if !r.Strength.Given {
				return
			}
			ppm := r.Strength.Value.Float()
			if r.Strength.Unit == fact.Percent {
				ppm *= 10_000
			}
			low, _ := least.of(e.Date, nil, nil)
			high, ok := most.of(e.Date, nil, nil)
			if ok && (ppm < low.Value || ppm > high.Value) {
				p.reportf(e, r.Strength.Span, []string{as}, "%s at %s %s is outside of what is sold, from %s to %s (%s); is the unit right?",
					r.Hormone.Text, r.Strength.Value, r.Strength.Unit, low, high, high.Mark)
			}
		}
		each(p, func(e *fact.Entry, f *fact.Layer) { ask(e, f.Rooting, f.As.Text) })
		each(p, func(e *fact.Entry, f *fact.Begin) { ask(e, f.Rooting, f.As.Text) })
	},
}
