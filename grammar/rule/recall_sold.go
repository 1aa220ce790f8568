package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var recallSold = &Rule{
	Name: "recall-sold", Severity: finding.Warning,
	Summary: "plants were sold that come from one marked sick or off-type",
	Why:     "The buyers should hear of it from you. The sales are in the lot's history; marking the lot says that it was dealt with.",
	Bad:     bench + "2026-11-20\nsell 30 of AM26 to Bob at 19.00 each\n2027-01-10\nmark M7 off-type because \"fruit round\"\n",
	Good:    bench + "2026-11-20\nsell 30 of AM26 to Bob at 19.00 each\n2027-01-10\nmark M7 off-type because \"fruit round\"\nmark AM26 off-type because \"from M7; Bob was told\"\n",
	check: func(p *pass) {
		p.offspring(func(l *nursery.Lot, bad nursery.Source, m nursery.Mark) {
			if out := l.Out[fact.Sold] + l.Out[fact.Given] - l.Returned; out > 0 {
				f := p.reportf(l.Made, firstLine(l.Made), []string{l.Name, bad.Label()}, "%d of %s went to buyers and %s from %s, which is marked %s since %s; tell the buyers, then mark %s too",
					out, l.Name, finding.Either(out, "comes", "come"), bad.Label(), m.Word, m.Day.Long(), l.Name)
				also(f, m.Entry, "marked here")
			}
		})
	},
}
