package rule

import (
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var staleCheck = &Rule{
	Name: "stale-check", Severity: finding.Warning, Limits: []string{"stale-check"},
	Summary: "grafts have had no check for so long that a look no longer tells when they failed",
	Why: "A graft that is first looked at after months is dead or alive, and nobody can say any more whether the union failed, the tie girdled it " +
		"or the plant dried out. The days differ by species and can be set for a method of your own.",
	Bad:   stale,
	Good:  stale + "check AM26: 30 took, 10 failed happened 2026-04-10\n",
	check: unchecked(nursery.GraftBatch, "stale-check"),
}

// unchecked asks whether attempts of a kind have had no check by their stale
// day, as of the last day of the journal.
func unchecked(kind nursery.BatchKind, limit string) func(*pass) {
	return func(p *pass) {
		after := p.gauge(limit)
		p.batches(func(b *nursery.Batch) {
			if b.Kind != kind || len(b.Checks) > 0 || b.Waiting() == 0 || p.Last <= b.Stale {
				return
			}
			l, ok := after.of(b.Entry.Date, b.Top.Variety, b.Method)
			if !ok {
				return
			}
			p.reportf(b.Entry, firstLine(b.Entry), []string{b.Lot.Name}, "%d of %s %s waited for a check for %s, and %s is the time for it (%s)",
				b.Waiting(), b.Lot.Name, finding.Either(b.Waiting(), "has", "have"), days(p.Last-b.Day), l, l.Mark)
		})
	}
}
