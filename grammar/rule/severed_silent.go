package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var severedSilent = &Rule{
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
				p.reportf(last, firstLine(last), []string{l.Name}, "nothing was written about %s for %s since it was severed; count what lives (%s is long, %s)",
					l.Name, days(p.Last-last.Day()), most, most.Mark)
			}
		})
	},
}
