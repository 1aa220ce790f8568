package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

// The rules about layers and what is set to root.
var (
	severSoon = &Rule{
		Name: "sever-age", Severity: finding.Warning, Limits: []string{"sever-age"},
		Summary: "layers are cut from the mother sooner than they can have roots to live on",
		Why: "A layer that is severed with a few white roots dies in its pot. How long they need differs by species; an approach graft takes its six weeks too. " +
			"Roots on three sides, with tips that turn brown, are the sign.",
		Bad:  kestrel + "limit layer-first-check 14 days\nlayer 8 on M7 as AL26 worker Ines\n2025-11-24\ncheck AL26: 8 rooted\nsever 8 of AL26\n",
		Good: kestrel + "layer 8 on M7 as AL26 worker Ines\n2026-01-20\ncheck AL26: 8 rooted\nsever 8 of AL26\n",
		check: func(p *pass) {
			least := p.gauge("sever-age")
			p.moves(fact.Severed, func(m *nursery.Move) {
				b := m.From.Batch
				if b == nil {
					return
				}
				age := m.Entry.Day() - b.Day
				if l, ok := least.of(m.Entry.Date, b.Top.Variety, b.Method); ok && age < l.Days() {
					p.reportf(m.Entry, firstLine(m.Entry), []string{m.From.Name}, "%s is severed %d days after it was set; it needs about %s (%s)", m.From.Name, age, l, l.Mark)
				}
			})
		},
	}
	rootedEarly = &Rule{
		Name: "rooted-early", Severity: finding.Hint, Limits: []string{"layer-first-check", "cutting-first-check"},
		Summary: "layers or cuttings are said to have rooted very soon",
		Why:     "In so few days there is callus at most. Look again, and give the verdict when roots can be seen through the wrap.",
		Bad:     kestrel + "layer 8 on M7 as AL26 worker Ines\n2025-11-24\ncheck AL26: 8 rooted\n",
		Good:    kestrel + "layer 8 on M7 as AL26 worker Ines\n2026-01-20\ncheck AL26: 8 rooted\n",
		check: func(p *pass) {
			layers, cuttings := p.gauge("layer-first-check"), p.gauge("cutting-first-check")
			p.batches(func(b *nursery.Batch) {
				first := layers
				switch b.Kind {
				case nursery.CuttingBatch:
					first = cuttings
				case nursery.LayerBatch:
				default:
					return
				}
				for _, e := range b.Checks {
					if e.Day() >= b.FirstCheck || e.Effect.(*fact.Check).Outcomes[0].Verdict != fact.Rooted {
						continue
					}
					if l, ok := first.of(b.Entry.Date, b.Top.Variety, b.Method); ok {
						p.reportf(e, firstLine(e), []string{b.Lot.Name}, "%s is said to have rooted after %d days; mostly that takes %s (%s)", b.Lot.Name, e.Day()-b.Day, l, l.Mark)
					}
				}
			})
		},
	}
	hardToLayer = &Rule{
		Name: "layer-roots", Severity: finding.Hint, Limits: []string{"layer-roots"},
		Summary: "layers are set of a kind that roots badly",
		Why:     "Mango, sapodilla, carambola and a few others root seldom and slowly as layers; plan for few, or graft. Said once for each variety.",
		Bad:     kestrel + mangoTree + "layer 8 on H1 as HL26 worker Ines\n",
		Good:    kestrel + "layer 8 on M7 as AL26 worker Ines\n",
		check: func(p *pass) {
			most := p.gauge("layer-roots")
			said := map[*nursery.Variety]bool{}
			p.batches(func(b *nursery.Batch) {
				if b.Kind != nursery.LayerBatch || b.Top.Variety == nil || said[b.Top.Variety] {
					return
				}
				if l, ok := most.of(b.Entry.Date, b.Top.Variety, b.Method); ok && l.Value < rootsWell {
					said[b.Top.Variety] = true
					p.reportf(b.Entry, firstLine(b.Entry), []string{b.Lot.Name, b.Top.Variety.Name}, "of layers of %s seldom more than %s root (%s); plan for few, or graft", b.Top.Species(), l, l.Mark)
				}
			})
		},
	}
	hormoneStrength = &Rule{
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
	severedSilent = &Rule{
		Name: "severed-silent", Severity: finding.Hint, Limits: []string{"severed-silent"},
		Summary: "nothing was heard of layers since they were severed",
		Why:     "Living on after severing is a stage of its own, and of ten layers one to four die in it (rule of thumb). Write what was lost, or count them.",
		Bad:     severedLayers + "2026-07-20\nnote QB25 \"in leaf\"\n",
		Good:    severedLayers + "2026-04-20\ncount AL26 8\n2026-07-20\nnote QB25 \"in leaf\"\n",
		check: func(p *pass) {
			after := p.gauge("severed-silent")
			p.lots(func(l *nursery.Lot) {
				last := l.Entries[len(l.Entries)-1]
				f, ok := last.Effect.(*fact.Pass)
				if !ok || f.How != fact.Severed || l.On[fact.Living] == 0 || l.OnMother() && l.On[fact.Attached] > 0 {
					return
				}
				if most, ok := after.of(p.Last, l.Top.Variety, nil); ok && p.Last-last.Day() > most.Days() {
					p.reportf(last, firstLine(last), []string{l.Name}, "nothing was written about %s for %d days since it was severed; count what lives (%s is long, %s)",
						l.Name, p.Last-last.Day(), most, most.Mark)
				}
			})
		},
	}
)

// rootsWell is the share of layers, in percent, of a species that roots well
// enough to say nothing.
const rootsWell = 75

const (
	mangoTree = `variety Harbourgold species "Mangifera indica"
tree H1 variety Harbourgold at terrace-3 planted 2013
mark H1 verified because "leaf and fruit seen"
`
	severedLayers = kestrel + `layer 8 on M7 as AL26 worker Ines
2026-01-20
check AL26: 8 rooted
sever 8 of AL26
`
)
