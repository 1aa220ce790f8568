package rule

import (
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var countShort = &Rule{
	Name: "count-short", Severity: finding.Warning,
	Limits:  []string{"stale-check", "layer-stale", "cutting-stale", "seed-stale"},
	Summary: "a check left plants without a verdict, and the time for one has passed",
	Why: "Plants that a check does not mention go on waiting, which is right while they may still take. When that time is over they are " +
		"in no rate and can't be sold; mostly someone forgot to write how many failed.",
	Bad: kestrel + `
2026-03-02
graft 50 of QB25 with M7 by cleft as AM26 worker Ines
2026-03-30
check AM26: 30 took, 15 failed
2026-06-15
note QB25 "in leaf"
`,
	Good: kestrel + `
2026-03-02
graft 50 of QB25 with M7 by cleft as AM26 worker Ines
2026-03-30
check AM26: 30 took, 15 failed, 5 dead
2026-06-15
note QB25 "in leaf"
`,
	check: func(p *pass) {
		p.batches(func(b *nursery.Batch) {
			if len(b.Checks) == 0 || b.Waiting() == 0 || p.Last <= b.Stale {
				return
			}
			last := b.Checks[len(b.Checks)-1]
			p.reportf(last, firstLine(last), []string{b.Lot.Name}, "%d of the %d in %s still %s for a verdict, %s after they were begun; write what became of them",
				b.Waiting(), b.Made, b.Lot.Name, finding.Either(b.Waiting(), "waits", "wait"), days(p.Last-b.Day))
		})
	},
}
