package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
)

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
