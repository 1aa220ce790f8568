package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/source"
)

var unitMix = &Rule{
	Name: "unit-mix", Severity: finding.Warning,
	Summary: "one kind of thing is measured in units of two systems",
	Why: "Pots in litres and in gallons, stems in millimetres and in inches: nobody sees at a glance any more which is larger, and slips hide. " +
		"Said once for each kind of thing.",
	Bad:  bench + "pot AM26 to 3 L\npot QB25 to 1 gal\n",
	Good: bench + "pot AM26 to 3 L\npot QB25 to 4 L\n",
	check: func(p *pass) {
		first := map[string]*used{}
		ask := func(e *fact.Entry, what string, q fact.Quantity) {
			if !q.Given {
				return
			}
			system := unitSystem(q.Unit)
			switch u := first[what]; {
			case u == nil:
				first[what] = &used{e, q.Span, q.Unit, system, false}
			case u.system != system && !u.said:
				u.said = true
				f := p.reportf(e, q.Span, []string{what}, "%s are measured in %s here and were in %s before; keep to one", what, q.Unit, u.unit)
				f.Related = append(f.Related, finding.Related{File: u.entry.File, Span: u.span, Message: "the other unit"})
			}
		}
		each(p, func(e *fact.Entry, f *fact.Pass) {
			what := "widths of pots"
			if _, volume := potSize(f.Pot); volume {
				what = "pots"
			}
			ask(e, what, f.Pot)
		})
		each(p, func(e *fact.Entry, f *fact.Graft) { ask(e, "stems", f.Caliper) })
		each(p, func(e *fact.Entry, f *fact.Cut) { ask(e, "stems", f.Caliper) })
		each(p, func(e *fact.Entry, f *fact.Layer) {
			ask(e, "hormones", f.Strength)
			ask(e, "wounds", f.Wound)
		})
		each(p, func(e *fact.Entry, f *fact.Begin) {
			ask(e, "hormones", f.Strength)
			ask(e, "wounds", f.Wound)
		})
		each(p, func(e *fact.Entry, f *fact.Pick) { ask(e, "fruit", f.Mass) })
		each(p, func(e *fact.Entry, f *fact.Leave) { ask(e, "fruit", f.Quantity) })
	},
}

// used is the first use of a unit for a kind of thing.
type used struct {
	entry  *fact.Entry
	span   source.Span
	unit   fact.Unit
	system string
	said   bool
}

// unitSystem sorts units into those that are used together.
func unitSystem(u fact.Unit) string {
	switch u {
	case fact.Pound, fact.Ounce, fact.Inch, fact.Gallon:
		return "inch and pound"
	case fact.PartsPerM, fact.Percent:
		return string(u)
	}
	return "metric"
}
