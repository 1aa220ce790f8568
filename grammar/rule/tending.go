package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
)

// undone asks whether a job is overdue on grafts that took, by a limit counted
// from the grafting; of some jobs only on methods that leave the stock its top.
func undone(job, limit, still string, topped bool) func(*pass) {
	return func(p *pass) {
		due := p.gauge(limit)
		recorded := false
		var grafts []*nursery.Lot
		p.lots(func(l *nursery.Lot) {
			recorded = recorded || tended(l, job)
			if l.On[fact.Living] > l.Bare && l.Grafted() && p.Last-l.Day > 7 {
				grafts = append(grafts, l)
			}
		})
		p.end(func() {
			for _, l := range grafts {
				if !recorded {
					return
				}
				b := l.Batch
				if b == nil || b.Kind != nursery.GraftBatch || topped && !b.Method.Trade().LeavesTop() {
					continue
				}
				most, ok := due.of(b.Entry.Date, b.Top.Variety, b.Method)
				if age := p.Last - b.Day; ok && age > most.Days() && !tendedBefore(l, job, new(maxPast)) {
					p.reportf(l.Made, firstLine(l.Made), []string{l.Name}, "%s after grafting %s still has %s; by %s that is done (%s): tend %s %s",
						days(age), l.Name, still, most, most.Mark, l.Name, job)
				}
			}
		})
	}
}

// tended reports whether a job was done on the lot.
func tended(l *nursery.Lot, job string) bool {
	for _, e := range l.Tends {
		if e.Effect.(*fact.Tend).Job.Text == job {
			return true
		}
	}
	return false
}

// maxPast bounds how many lots are looked at to follow the past of one: lots
// that are split and joined again and again have very many pasts.
const maxPast = 64

// tendedBefore reports whether a job was done on the lot, or on the lots that
// its plants came from since they were grafted. Of a past too long to follow
// it says yes.
func tendedBefore(l *nursery.Lot, job string, left *int) bool {
	if *left--; *left < 0 || tended(l, job) {
		return true
	}
	if l.How == fact.Grafted {
		return false
	}
	for _, s := range l.Roots {
		from, ok := s.Thing.(*nursery.Lot)
		if !ok || !tendedBefore(from, job, left) {
			return false
		}
	}
	return len(l.Roots) > 0
}
