package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

// The rules about methods of grafting.
var (
	noMethod = &Rule{
		Name: "no-method", Severity: finding.Hint,
		Summary: "a graft does not say by which method it was made",
		Why:     "Without it the graft is missing where methods are compared, and the days of a method of your own can't apply.",
		Bad:     kestrel + "\n2026-03-02\ngraft 40 of QB25 with M7 as AM26 worker Ines\n",
		Good:    kestrel + "\n2026-03-02\ngraft 40 of QB25 with M7 by cleft as AM26 worker Ines\n",
		check: func(p *pass) {
			p.grafts(func(b *nursery.Batch, _ *fact.Graft) {
				if b.Method == nil {
					p.reportf(b.Entry, firstLine(b.Entry), []string{b.Lot.Name}, "nothing says how %s was grafted, so it is missing where methods are compared; add: by cleft, or what it was", b.Lot.Name)
				}
			})
		},
	}
	methodSynonyms = &Rule{
		Name: "method-synonyms", Severity: finding.Hint,
		Summary: "one method goes by two names",
		Why:     "The trade has several words for many methods, cleft and wedge for one. In the reports they are two methods, and neither has enough grafts to tell anything.",
		Bad:     kestrel + "\n2026-03-02\ngraft 40 of QB25 with M7 by cleft as AM26 worker Ines\ngraft 40 of QB25 with M7 by wedge as AM26b worker Ines\n",
		Good:    kestrel + "\n2026-03-02\ngraft 40 of QB25 with M7 by cleft as AM26 worker Ines\ngraft 40 of QB25 with M7 by cleft as AM26b worker Ines\n",
		check: func(p *pass) {
			first := map[string]*nursery.Method{}
			for _, m := range p.Methods {
				known := m.Trade()
				if known.Name == "" || m.Fact != nil {
					continue
				}
				other := first[known.Name]
				if other == nil {
					first[known.Name] = m
					continue
				}
				f := p.reportf(m.Used, spanOf(m.Used, m.Name), []string{m.Name, other.Name}, "%s and %s are one method; write %s throughout, so that the reports put them together", m.Name, other.Name, other.Name)
				also(f, other.Used, "the other name")
				if at := spanOf(m.Used, m.Name); m.Used.File.Text(at) == m.Name {
					f.Mend = &finding.Mend{Span: at, Text: other.Name}
				}
			}
		},
	}
	outOfSeason = &Rule{
		Name: "out-of-season", Severity: finding.Hint,
		Summary: "a method that needs the bark to slip is used in the dead of winter",
		Why: "Shield, patch and flute buds and bark grafts go in where the bark lifts from the wood. Of trees that drop their leaves it does not in " +
			"December, January and February (south of the equator in June, July and August: say `hemisphere south` on the farm). Common practice, no source.",
		Bad:  kestrel + pear + "\n2026-01-15\ngraft 10 of PS25 with P1 by patch as PE26 worker Ines\n",
		Good: kestrel + pear + "\n2026-01-15\ngraft 10 of PS25 with P1 by whip-and-tongue as PE26 worker Ines\n",
		check: func(p *pass) {
			if p.Farm == nil {
				return
			}
			p.grafts(func(b *nursery.Batch, f *fact.Graft) {
				kind := b.Method.Trade().Kind
				if kind != "bark" && kind != "bark bud" || !deciduous[genusOf(b.Stock.Species())] || !midwinter(b.Day, p.Farm.South) {
					return
				}
				p.reportf(b.Entry, f.By.Span, []string{b.Lot.Name}, "%s needs bark that slips, and in the middle of winter that of %s does not", f.By.Text, b.Stock.Species())
			})
		},
	}
)

// deciduous are the genera, folded, that stand bare in winter.
var deciduous = map[string]bool{
	"malus": true, "pyrus": true, "cydonia": true, "prunus": true, "juglans": true, "carya": true, "vitis": true, "diospyros": true,
	"ficus": true, "morus": true, "punica": true, "castanea": true, "crataegus": true, "mespilus": true,
}

// midwinter reports whether a day lies in the three coldest months.
func midwinter(day fact.Date, south bool) bool {
	_, month, _ := day.Civil()
	if south {
		return 6 <= month && month <= 8
	}
	return month == 12 || month <= 2
}
