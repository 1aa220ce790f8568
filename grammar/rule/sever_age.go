package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var severSoon = &Rule{
	Name: "sever-age", Severity: finding.Warning, Limits: []string{"sever-age"},
	Summary: "layers are cut from the mother sooner than they can have roots to live on",
	Why: "A layer that is severed with a few white roots dies in its pot. How long they need differs by species; an approach graft takes its six weeks too. " +
		"Roots on three sides, with tips that turn brown, are the sign.",
	Bad:  kestrel + "limit layer-first-check 14 days\nlayer 8 on M7 as AL26 worker Ines\n2025-11-24\ncheck AL26: 8 rooted\nsever 8 of AL26\n",
	Good: kestrel + "layer 8 on M7 as AL26 worker Ines\n2026-01-20\ncheck AL26: 8 rooted\nsever 8 of AL26\n",
	check: func(p *pass) {
		least := p.gauge("sever-age")
		p.moves(fact.Severed, func(m *nursery.Move) {
			b := m.From.Batch
			if b == nil {
				return
			}
			age := m.Entry.Day() - b.Day
			if l, ok := least.of(m.Entry.Date, b.Top.Variety, b.Method); ok && age < l.Days() {
				p.reportf(m.Entry, firstLine(m.Entry), []string{m.From.Name}, "%s is severed %s after it was set; it needs about %s (%s)", m.From.Name, days(age), l, l.Mark)
			}
		})
	},
}
