package rule

import (
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var lateLoss = &Rule{
	Name: "late-loss", Severity: finding.Warning, Limits: []string{"late-loss"},
	Summary: "many grafts that had taken failed later",
	Why: "Three to ten tops in a hundred die in the months after the check (rule of thumb). Many more mean that the check came too early, the ties came off " +
		"too soon or too late, or stock and scion do not hold.",
	Bad:  bench + "2026-06-20\nfail 12 of AM26\n",
	Good: bench + "2026-06-20\nfail 2 of AM26\n",
	check: func(p *pass) {
		most := p.gauge("late-loss")
		p.batches(func(b *nursery.Batch) {
			if b.Kind != nursery.GraftBatch || b.Late == 0 || b.Took < fewPlants {
				return
			}
			if l, ok := most.of(b.Entry.Date, b.Top.Variety, b.Method); ok && float64(b.Late)*100 > l.Value*float64(b.Took) {
				p.reportf(b.Entry, firstLine(b.Entry), []string{b.Lot.Name}, "%d of the %d grafts of %s that took failed later, more than %s (%s)", b.Late, b.Took, b.Lot.Name, l, l.Mark)
			}
		})
	},
}
