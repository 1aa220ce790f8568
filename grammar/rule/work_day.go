package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

// The rules about what one person can do in a day.
var (
	graftsADay = &Rule{
		Name: "grafts-a-day", Severity: finding.Warning, Limits: []string{"grafts-a-day"},
		Summary: "someone makes more grafts in a day than anyone can",
		Why: "A practised hand makes 120 to 220 veneers or clefts in eight hours and 400 to 1200 chip or shield buds (rule of thumb). " +
			"More is a slip of the pen, or the work of several people, who should all be named.",
		Bad:  manyStocks + "\n2025-11-05\ngraft 900 of QC25 with WB26 by cleft as AM26 worker Ines\n",
		Good: manyStocks + "\n2025-11-05\ngraft 200 of QC25 with WB26 by cleft as AM26 worker Ines\n",
		check: func(p *pass) {
			most := p.gauge("grafts-a-day")
			days := newDayBook(p)
			p.grafts(func(b *nursery.Batch, f *fact.Graft) {
				crew := b.Entry.Workers()
				l, ok := most.of(b.Entry.Date, b.Top.Variety, b.Method)
				if !ok || l.Value <= 0 || b.Limbs {
					return
				}
				for _, by := range crew {
					before, now := days.add(b.Entry.Day(), by.Worker.Text, float64(b.Made)/float64(len(crew))/l.Value)
					if before <= 1 && now > 1 {
						p.reportf(b.Entry, f.Count.Span, []string{b.Lot.Name, by.Worker.Text}, "with these %s has made more grafts on %s than one person can; about %s is a day's work by this method (%s)",
							by.Worker.Text, b.Entry.Day().Long(), l, l.Mark)
					}
				}
			})
		},
	}
	hoursADay = &Rule{
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
	graftMinutes = &Rule{
		Name: "graft-minutes", Severity: finding.Warning, Limits: []string{"graft-minutes-least", "graft-minutes-most"},
		Summary: "the time for a lot of grafts makes no sense for each of them",
		Why: "From half a minute for a bud to ten for an approach graft, with cutting and labelling (rule of thumb). Outside of that hours stand for minutes, " +
			"or the time is of something else. Limbs of standing trees are not asked about.",
		Bad:  kestrel + "\n2026-03-02\ngraft 60 of QB25 with M7 by cleft as AM26 worker Ines 3 min\n",
		Good: kestrel + "\n2026-03-02\ngraft 60 of QB25 with M7 by cleft as AM26 worker Ines 3 h\n",
		check: func(p *pass) {
			least, most := p.gauge("graft-minutes-least"), p.gauge("graft-minutes-most")
			p.grafts(func(b *nursery.Batch, f *fact.Graft) {
				total, timed := 0.0, true
				for _, by := range b.Entry.Workers() {
					total, timed = total+by.Minutes.Float(), timed && by.Timed
				}
				if !timed || total == 0 || b.Limbs {
					return
				}
				each := total / float64(b.Made)
				low, _ := least.of(b.Entry.Date, b.Top.Variety, b.Method)
				high, ok := most.of(b.Entry.Date, b.Top.Variety, b.Method)
				if ok && (each < inMinutes(low) || each > inMinutes(high)) {
					p.reportf(b.Entry, b.Entry.Workers()[0].Worker.Span, []string{b.Lot.Name}, "%d grafts in %.4g minutes are %.2g minutes each; from %s to %s is usual (%s)",
						b.Made, total, each, low, high, high.Mark)
				}
			})
		},
	}
)

// manyStocks is kestrel with very many stocks.
const manyStocks = kestrel + "buy 2000 liners of \"Quince BA\" as QC25 from \"Valley Liners\" for 2000.00\nbuy 1000 scions of Amberlight as WB26 from Bob for 200.00\n"

// inMinutes is a limit of working time in minutes.
func inMinutes(l nursery.Limit) float64 {
	if l.Unit == fact.Hour {
		return l.Value * 60
	}
	return l.Value
}

// A dayBook adds up what each person did on a day. Entries come in the order of
// their days but for the few that happened earlier; for those the book is of
// another day, and begins anew.
type dayBook struct {
	pass *pass
	day  fact.Date
	done map[*nursery.Worker]float64
}

func newDayBook(p *pass) *dayBook { return &dayBook{pass: p, done: map[*nursery.Worker]float64{}} }

// add puts something to a person's day and says what stood there before and
// what stands there now.
func (d *dayBook) add(day fact.Date, worker string, amount float64) (before, now float64) {
	if day != d.day {
		d.day = day
		clear(d.done)
	}
	w, ok := d.pass.Worker(worker)
	if !ok {
		return 0, 0
	}
	before = d.done[w]
	d.done[w] = before + amount
	return before, before + amount
}
