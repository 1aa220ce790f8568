package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/grammar/syntax"
)

var noWage = &Rule{
	Name: "no-wage", Severity: finding.Hint,
	Summary: "someone's hours are written down, and no wage",
	Why:     "Hours without a wage cost nothing in the reports; the owner's own too are worth something. Said once for each person.",
	Bad:     kestrel + "worker Ru note \"two days a week\"\nwork weeding worker Ru 3 h\n",
	Good:    kestrel + "worker Ru 13.00 per h\nwork weeding worker Ru 3 h\n",
	check: func(p *pass) {
		said := map[*nursery.Worker]bool{}
		p.entries(func(e *fact.Entry) {
			for _, by := range e.Workers() {
				if !by.Timed {
					continue
				}
				w, ok := p.Worker(by.Worker.Text)
				if !ok || said[w] {
					continue
				}
				said[w] = true
				if !hasWage(w) {
					p.reportf(e, by.Worker.Span, []string{w.Name}, "no wage of %s is known, so these hours cost nothing in the reports; write: worker %s … per h", w.Name, syntax.Spell(w.Name))
				}
			}
		})
	},
}

func hasWage(w *nursery.Worker) bool {
	for _, e := range w.Wages {
		if e.Effect.(*fact.Worker).Wage.Given {
			return true
		}
	}
	return false
}
