package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

// Checks and plants by one person from which on an unbroken success is odd.
const (
	manyChecks  = 5
	manyChecked = 50
)

var neverFails = &Rule{
	Name: "never-fails", Severity: finding.Hint,
	Summary: "one person's checks never find a failure",
	Why: "Five checks of fifty grafts or more without one failure are better than the best hand. Either only the good ones are written down, or " +
		"nobody looks closely; then every take in the reports is too high.",
	Bad:  fiveChecks("took", "took"),
	Good: fiveChecks("took", "failed"),
	check: func(p *pass) {
		type record struct {
			checks, plants int32
			last           *fact.Entry
			failed         bool
		}
		records := map[*nursery.Worker]*record{}
		var order []*nursery.Worker
		each(p, func(e *fact.Entry, f *fact.Check) {
			if len(e.Workers()) == 0 {
				return
			}
			l := p.lot(f.Lot)
			if l == nil || l.Batch == nil || l.Batch.Kind != nursery.GraftBatch {
				return
			}
			for _, by := range e.Workers() {
				w, _ := p.Worker(by.Worker.Text)
				r := records[w]
				if r == nil {
					r = &record{}
					records[w] = r
					order = append(order, w)
				}
				r.checks, r.last = r.checks+1, e
				for _, o := range f.Outcomes {
					r.plants += o.Count.N
					r.failed = r.failed || o.Verdict != fact.Took && o.Count.N > 0
				}
			}
		})
		p.end(func() {
			for _, w := range order {
				if r := records[w]; !r.failed && r.checks >= manyChecks && r.plants >= manyChecked {
					p.reportf(r.last, firstLine(r.last), []string{w.Name}, "all %d checks by %s, of %d grafts, found that every one took; write down the failures too",
						r.checks, w.Name, r.plants)
				}
			}
		})
	},
}

// fiveChecks is five small lots, checked by Ines; the last plants of each have
// the verdict last.
func fiveChecks(most, last string) string {
	journal := kestrel + "\n2026-03-02\n"
	for _, lot := range []string{"A1", "A2", "A3", "A4", "A5"} {
		journal += "graft 12 of QB25 with M7 by cleft as " + lot + " worker Ines\n"
	}
	journal += "2026-03-30\n"
	for _, lot := range []string{"A1", "A2", "A3", "A4", "A5"} {
		journal += "check " + lot + ": 11 " + most + ", 1 " + last + " worker Ines\n"
	}
	return journal
}
