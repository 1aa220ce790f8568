package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var nucellarNamed = &Rule{
	Name: "nucellar-as-variety", Severity: finding.Warning,
	Summary: "a seedling of a polyembryonic variety is planted under its name",
	Why: "Most seedlings of a polyembryonic variety are clones of the mother, and some are not: from 2 to 64 in a hundred, by the variety (a chapter on polyembryony " +
		"of the mango). Call it a seedling until it has borne.",
	Bad:  kestrel + poly + "plant 1 of HS25 as S1 variety Manyseed at terrace-3\n",
	Good: kestrel + poly + "plant 1 of HS25 as S1 at terrace-3\n",
	check: func(p *pass) {
		p.seedlingsPlanted(func(e *fact.Entry, f *fact.Plant, l *nursery.Lot, v *nursery.Variety) {
			if v == l.Top.Variety && l.Top.Nucellar() {
				p.reportf(e, f.Variety.Span, []string{f.Of.Text, v.Name}, "most seedlings of %s are like their mother, and some are not; leave out the variety until this one has borne", v.Name)
			}
		})
	},
}
