package rule

import (
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

// fewGrafts are too few for a rate to be remarkable.
const fewGrafts = 20

var takeOutlier = &Rule{
	Name: "take-outlier", Severity: finding.Warning, Limits: []string{"take-low", "take-full"},
	Summary: "nearly none, or every single one, of many grafts took",
	Why: "Not one failure among very many grafts mostly means that they were not looked at one by one. Nearly none is a wrong number, or a real " +
		"disaster whose cause should stand in a note. Both limits are rules of thumb.",
	Bad: kestrel + `
2026-03-02
graft 60 of QB25 with M7 by cleft as AM26 worker Ines
2026-03-30
check AM26: 2 took, 58 failed
`,
	Good: kestrel + `
2026-03-02
graft 60 of QB25 with M7 by cleft as AM26 worker Ines
2026-03-30
check AM26: 52 took, 8 failed
`,
	check: func(p *pass) {
		low, full := p.gauge("take-low"), p.gauge("take-full")
		p.batches(func(b *nursery.Batch) {
			if b.Kind != nursery.GraftBatch || b.Known() < fewGrafts || len(b.Checks) == 0 {
				return
			}
			e := b.Checks[len(b.Checks)-1]
			if l, ok := full.of(b.Entry.Date, b.Top.Variety, b.Method); ok && b.Took == b.Known() && float64(b.Took) > l.Value {
				p.reportf(e, firstLine(e), []string{b.Lot.Name}, "all %d of %s took, without one failure; was each looked at? (more than %s is seldom: %s)",
					b.Took, b.Lot.Name, l, l.Mark)
			}
			if l, ok := low.of(b.Entry.Date, b.Top.Variety, b.Method); ok && float64(b.Took)*100 < l.Value*float64(b.Known()) {
				p.reportf(e, firstLine(e), []string{b.Lot.Name}, "%d of %d in %s took, less than %s (%s); mend the numbers, or note the cause and allow it",
					b.Took, b.Known(), b.Lot.Name, l, l.Mark)
			}
		})
	},
}
