package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var unusedLot = &Rule{
	Name: "unused-lot", Severity: finding.Hint, Limits: []string{"unused-lot"},
	Summary: "plants are on hand of which nothing was heard for a long time",
	Why:     "They were forgotten, or died or were sold without a word. Count them, or write what became of them.",
	Bad:     kestrel + "2027-03-02\nnote M7 \"in bloom\"\n",
	Good:    kestrel + "2026-11-02\ncount QB25 100\n2027-03-02\nnote M7 \"in bloom\"\n",
	check: func(p *pass) {
		after := p.gauge("unused-lot")
		p.lots(func(l *nursery.Lot) {
			last := l.Entries[len(l.Entries)-1]
			if p.Last-last.Date < 90 || l.Free(fact.AnyState) == 0 || last.Date == 0 {
				return
			}
			if most, ok := after.of(p.Last, l.Top.Variety, nil); ok && p.Last-last.Date > most.Days() {
				p.reportf(last, firstLine(last), []string{l.Name}, "this is the last word on %s, of which %s %s on hand %s later (%s is long, %s); count them, or say what became of them",
					l.Name, plants(l.Free(fact.AnyState)), finding.Either(l.Free(fact.AnyState), "is", "are"), days(p.Last-last.Date), most, most.Mark)
			}
		})
	},
}
