package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

// The rules about the age of stocks, as far as they were sown or struck here.
var (
	stockYoung = &Rule{
		Name: "stock-age", Severity: finding.Warning, Limits: []string{"stock-age"},
		Summary: "stocks are grafted that are too young for it",
		Why: "A seedling of a few weeks has no wood to hold a graft, save by the methods made for it (epicotyl, softwood). The least age differs by species. " +
			"Stocks that were bought are of unknown age.",
		Bad:  kestrel + sownStocks + "2026-03-20\ngraft 40 of QA26 with M7 by cleft as AM26 worker Ines\n",
		Good: kestrel + sownStocks + "2026-11-20\ngraft 40 of QA26 with M7 by cleft as AM26 worker Ines\n",
		check: func(p *pass) {
			least := p.gauge("stock-age")
			p.grafts(func(b *nursery.Batch, f *fact.Graft) {
				born, ok := stockBorn(b.From)
				if !ok {
					return
				}
				if l, ok := least.of(b.Entry.Date, b.Stock.Variety, b.Method); ok && b.Day-born < l.Days() {
					p.reportf(b.Entry, f.Of.Span, []string{b.Lot.Name, b.From.Name}, "the stocks of %s are %d days old, and such are worked from %s on (%s)",
						b.From.Name, b.Day-born, l, l.Mark)
				}
			})
		},
	}
	stockOld = &Rule{
		Name: "stock-old", Severity: finding.Warning, Limits: []string{"stock-old"},
		Summary: "stocks are grafted that have stood in pots for years",
		Why:     "A stock that is pot-bound has little sap to give, and its roots circle for life.",
		Bad:     kestrel + sownStocks + years + "2030-12-02\ngraft 40 of QA26 with M7 by cleft as AM26 worker Ines\n",
		Good:    kestrel + sownStocks + years + "2029-03-02\ngraft 40 of QA26 with M7 by cleft as AM26 worker Ines\n",
		check: func(p *pass) {
			most := p.gauge("stock-old")
			p.grafts(func(b *nursery.Batch, f *fact.Graft) {
				born, ok := stockBorn(b.From)
				if !ok {
					return
				}
				if l, ok := most.of(b.Entry.Date, b.Stock.Variety, b.Method); ok && b.Day-born > l.Days() {
					p.reportf(b.Entry, f.Of.Span, []string{b.Lot.Name, b.From.Name}, "the stocks of %s are %d months old, and after %s a stock in a pot is past working (%s)",
						b.From.Name, (b.Day-born)/30, l, l.Mark)
				}
			})
		},
	}
	stockTries = &Rule{
		Name: "stock-tries", Severity: finding.Hint, Limits: []string{"stock-tries"},
		Summary: "stocks are worked again after failing several times",
		Why: "Each cutting back costs a stock vigour and leaves a crook, and five to fifteen in a hundred die of it (rule of thumb). " +
			"After a few rounds a fresh stock is cheaper.",
		Bad:  failing + "2026-07-20\ngraft 2 failed of AMc with M7 by cleft as AMd worker Ines\n",
		Good: failing + "2026-07-20\ncull 2 failed of AMc because \"worked three times\"\n",
		check: func(p *pass) {
			most := p.gauge("stock-tries")
			p.grafts(func(b *nursery.Batch, f *fact.Graft) {
				if l, ok := most.of(b.Entry.Date, b.Stock.Variety, b.Method); ok && float64(b.Ordinal) > l.Value {
					p.reportf(b.Entry, f.Of.Span, []string{b.Lot.Name}, "these stocks have failed %d times before; after %s tries a fresh stock is cheaper (%s)", b.Ordinal-1, l, l.Mark)
				}
			})
		},
	}
)

// stockBorn is the day on which the stocks of a lot were sown or struck; the
// youngest, of a joined lot. It reports false where that is not known.
func stockBorn(l *nursery.Lot) (fact.Date, bool) { return born(l, new(maxPast)) }

func born(l *nursery.Lot, left *int) (fact.Date, bool) {
	switch *left--; {
	case l == nil || *left < 0 || l.How == fact.Bought || l.How == fact.Returned:
		return 0, false
	case l.How == fact.Sown || l.How == fact.Stuck || l.How == fact.Layered:
		return l.Day, true
	}
	var youngest fact.Date
	for _, s := range l.Roots {
		from, _ := s.Thing.(*nursery.Lot)
		day, ok := born(from, left)
		if !ok {
			return 0, false
		}
		youngest = max(youngest, day)
	}
	return youngest, youngest != 0
}

const (
	sownStocks = `sow 60 seed of "Quince BA" as QA26 from "Valley Liners" for 8.00
2026-02-20
check QA26: 50 up, 10 dead
`
	years = `cull QB25 because "not needed"
2027-02-20
note QA26 "in leaf"
2028-02-20
note QA26 "in leaf"
2029-02-20
note QA26 "in leaf"
`
	failing = kestrel + `
2026-03-02
graft 12 of QB25 with M7 by cleft as AMa worker Ines
2026-03-30
check AMa: 4 took, 8 failed
graft 8 failed of AMa with M7 by cleft as AMb worker Ines
2026-04-30
check AMb: 4 took, 4 failed
graft 4 failed of AMb with M7 by cleft as AMc worker Ines
2026-05-30
check AMc: 2 took, 2 failed
`
)
