package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var tiesEarly = &Rule{
	Name: "ties-early", Severity: finding.Warning, Limits: []string{"first-check"},
	Summary: "ties are taken off before the union can have healed",
	Why:     "Before the first check the scion is held by the tie alone and dries out without it.",
	Bad:     kestrel + "\n2026-03-02\ngraft 40 of QB25 with M7 by cleft as AM26 worker Ines\n2026-03-12\ntend AM26 ties\n",
	Good:    kestrel + "\n2026-03-02\ngraft 40 of QB25 with M7 by cleft as AM26 worker Ines\n2026-04-12\ntend AM26 ties\n",
	check: func(p *pass) {
		each(p, func(e *fact.Entry, f *fact.Tend) {
			if f.Job.Text != "ties" {
				return
			}
			for _, name := range f.Lots {
				l := p.lot(name)
				if l == nil || l.Batch == nil || l.Batch.Kind != nursery.GraftBatch || e.Day() >= l.Batch.FirstCheck || e.Day() < l.Batch.Day {
					continue
				}
				p.reportf(e, name.Span, []string{l.Name}, "the ties of %s come off %s after grafting, before the first check on %s can tell that it healed",
					l.Name, days(e.Day()-l.Batch.Day), l.Batch.FirstCheck.Long())
			}
		})
	},
}
