package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

// The rules about jobs that follow a take. They are only asked of a journal
// that records the job at all.
var (
	tiesOn = &Rule{
		Name: "ties-off", Severity: finding.Warning, Limits: []string{"ties-off"},
		Summary: "ties have not been taken off grafts",
		Why: "A tie that stays girdles the union as it swells, and the top snaps in the first wind. When it is time differs by species and by tape; " +
			"with a film that rots by itself, raise the limit. Asked only of a journal that records ties at all.",
		Bad:   bench + "tend AM26 rubbed\n2026-04-20\ngraft 20 of QB25 with M7 by cleft as AM26c worker Ines\n2026-05-20\ncheck AM26c: 20 took\ntend AM26c rubbed\n2026-06-01\ntend AM26c ties\n",
		Good:  bench + "tend AM26 rubbed\n2026-04-20\ntend AM26 ties\ngraft 20 of QB25 with M7 by cleft as AM26c worker Ines\n2026-05-20\ncheck AM26c: 20 took\ntend AM26c rubbed\n2026-06-01\ntend AM26c ties\n",
		check: undone("ties", "ties-off", "their ties on", false),
	}
	notHeaded = &Rule{
		Name: "headed-by", Severity: finding.Hint, Limits: []string{"headed-by"},
		Summary: "the stock's own top has not been cut back over a bud or side graft",
		Why: "A bud or a side graft pushes when the stock above it is cut back; left standing, the stock keeps the sap for itself. " +
			"Asked only of a journal that records heading back at all.",
		Bad:   sideGrafts + "2026-05-20\ntend AV26b headed\n",
		Good:  sideGrafts + "tend AV26 headed\n2026-05-20\ntend AV26b headed\n",
		check: undone("headed", "headed-by", "the stock's top above them", true),
	}
	notRubbed = &Rule{
		Name: "rubbed-by", Severity: finding.Hint, Limits: []string{"rubbed-by"},
		Summary: "shoots of the stock have not been rubbed off grafts",
		Why: "What grows below the union is the stock, and it wins if it is left. It comes off at the check and again each month (common practice, no source). " +
			"Asked only of a journal that records rubbing at all.",
		Bad:   sideGrafts + "2026-05-25\ntend AV26b rubbed\n",
		Good:  sideGrafts + "tend AV26 rubbed\n2026-05-25\ntend AV26b rubbed\n",
		check: undone("rubbed", "rubbed-by", "the stock's shoots on", false),
	}
	tiesEarly = &Rule{
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
					p.reportf(e, name.Span, []string{l.Name}, "the ties of %s come off %d days after grafting, before the first check on %s can tell that it healed",
						l.Name, e.Day()-l.Batch.Day, l.Batch.FirstCheck.Long())
				}
			})
		},
	}
)

// sideGrafts are two lots of veneer grafts that took.
const sideGrafts = kestrel + `
2026-03-02
graft 40 of QB25 with M7 by veneer as AV26 worker Ines
2026-03-30
check AV26: 30 took, 8 failed, 2 dead
2026-04-15
graft 20 of QB25 with M7 by veneer as AV26b worker Ines
2026-05-15
check AV26b: 18 took, 2 failed
`

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
					p.reportf(l.Made, firstLine(l.Made), []string{l.Name}, "%d days after grafting %s still has %s; by %s that is done (%s): tend %s %s",
						age, l.Name, still, most, most.Mark, l.Name, job)
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
