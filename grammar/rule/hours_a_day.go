package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
)

var hoursADay = &Rule{
	Name: "hours-a-day", Severity: finding.Warning, Limits: []string{"hours-a-day"},
	Summary: "someone works more hours in a day than anyone does",
	Why:     "Mostly minutes were written as hours, or the hours of a week stand on one day. Costs follow the hours.",
	Bad:     kestrel + "work weeding worker Ines 9 h\nwork watering worker Ines 17 h\n",
	Good:    kestrel + "work weeding worker Ines 5 h\nwork watering worker Ines 3 h\n",
	check: func(p *pass) {
		most := p.gauge("hours-a-day")
		days := newDayBook(p)
		p.entries(func(e *fact.Entry) {
			for _, by := range e.Workers() {
				if !by.Timed {
					continue
				}
				l, ok := most.of(e.Date, nil, nil)
				before, now := days.add(e.Day(), by.Worker.Text, by.Minutes.Float())
				if allowed := inMinutes(l); ok && before <= allowed && now > allowed {
					p.reportf(e, by.Worker.Span, []string{by.Worker.Text}, "with these %s has worked %.4g hours on %s, and %s is the most (%s); are minutes meant?",
						by.Worker.Text, now/60, e.Day().Long(), l, l.Mark)
				}
			}
		})
	},
}
