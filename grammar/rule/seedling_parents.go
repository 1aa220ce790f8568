package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var seedlingParents = &Rule{
	Name: "seedling-parents", Severity: finding.Warning,
	Summary: "a seedling is planted as a variety that is declared to have another mother",
	Why:     "A seedling's seed parent is the tree the seed was taken from. One of the two statements is wrong, and with it the pedigree.",
	Bad:     seedlings + "variety Redfall species \"Eriobotrya japonica\"\nvariety Seaward parents Redfall x unknown\nplant 1 of AS25 as S1 variety Seaward at terrace-3\n",
	Good:    seedlings + "variety Seaward parents Amberlight x unknown\nplant 1 of AS25 as S1 variety Seaward at terrace-3\n",
	check: func(p *pass) {
		p.seedlingsPlanted(func(e *fact.Entry, f *fact.Plant, l *nursery.Lot, v *nursery.Variety) {
			if v != l.Top.Variety && v.SeedParent != l.Top.Variety {
				p.reportf(e, f.Variety.Span, []string{f.Of.Text, v.Name}, "%s is seed of %s, and %s is not declared as its seedling: variety %s … parents %s x unknown",
					f.Of.Text, l.Top.Variety.Name, v.Name, v.Name, l.Top.Variety.Name)
			}
		})
	},
}
