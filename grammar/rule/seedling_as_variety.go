package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var seedlingNamed = &Rule{
	Name: "seedling-as-variety", Severity: finding.Error,
	Summary: "a seedling is planted under the name of the variety it came from",
	Why: "A seedling of a monoembryonic variety is a new genotype: it is not that variety, and sold under its name it is a fraud. Leave the name out, or declare " +
		"the seedling as a variety of its own with its parents.",
	Bad:  seedlings + "plant 1 of AS25 as S1 variety Amberlight at terrace-3\n",
	Good: seedlings + "plant 1 of AS25 as S1 at terrace-3\n",
	check: func(p *pass) {
		p.seedlingsPlanted(func(e *fact.Entry, f *fact.Plant, l *nursery.Lot, v *nursery.Variety) {
			if v == l.Top.Variety && !l.Top.Nucellar() {
				p.reportf(e, f.Variety.Span, []string{f.Of.Text, v.Name}, "a seedling of %s is not %s; leave out the variety, or declare a new one: variety … parents %s x unknown", v.Name, v.Name, v.Name)
			}
		})
	},
}
