package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

// The rules about seedlings that get a name.
var (
	seedlingNamed = &Rule{
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
	nucellarNamed = &Rule{
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
	seedlingParents = &Rule{
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
)

// seedlingsPlanted asks about seedlings that are planted under the name of a
// variety.
func (p *pass) seedlingsPlanted(ask func(*fact.Entry, *fact.Plant, *nursery.Lot, *nursery.Variety)) {
	each(p, func(e *fact.Entry, f *fact.Plant) {
		l := p.lot(f.Of)
		v, known := p.Variety(f.Variety.Text)
		if l != nil && f.Variety.Given() && known && l.Top.Seedling && l.Top.Variety != nil {
			ask(e, f, l, v)
		}
	})
}

const (
	seedlings = kestrel + `sow 30 seed of Amberlight as AS25 from M7
2026-01-20
check AS25: 24 up, 6 dead
`
	poly = `variety Manyseed species "Mangifera indica" seed polyembryonic
sow 30 seed of Manyseed as HS25 from "Valley Liners"
2025-12-10
check HS25: 24 up, 6 dead
`
)
