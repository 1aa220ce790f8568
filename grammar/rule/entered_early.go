package rule

import (
	"cmp"
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var enteredEarly = &Rule{
	Name: "entered-early", Severity: finding.Warning,
	Summary: "someone works on plants that a treatment still keeps people away from",
	Why: "The label of a product says how long nobody may go in after it was put on, or only with what protection; in the United States that holds for nurseries " +
		"too (40 CFR 170). The journal knows days and not hours: what is written below a treatment on its own day counts, and of the days after it those that lie " +
		"within the time whole. Where it was in order, allow it with the hour. What the label and the law of the place ask goes before this.",
	Bad:  bench + "2026-07-20\ntreat AM26 with \"copper soap\" registered \"ES-00417\" re-entry 48 h\n2026-07-21\ntend AM26 rubbed worker Ines 1 h\n",
	Good: bench + "2026-07-20\ntreat AM26 with \"copper soap\" registered \"ES-00417\" re-entry 48 h\n2026-07-22\ntend AM26 rubbed worker Ines 1 h\n",
	check: func(p *pass) {
		p.end(func() {
			for i := range p.Visits {
				v := &p.Visits[i]
				if f, ok := v.Entry.Effect.(*fact.Treat); ok && f.Reentry.Given {
					closing{p, v, f, map[*fact.Entry]bool{}}.ask()
				}
			}
		})
	},
}

// A closing is a treatment that keeps people out for some time.
type closing struct {
	*pass
	visit *nursery.Visit
	treat *fact.Treat
	said  map[*fact.Entry]bool
}

// ask looks at what was done on the things treated, on those that stand where it
// was done, and in that place.
func (c closing) ask() {
	for _, t := range c.visit.Things {
		c.entries(entriesOf(t), t.Label())
	}
	if len(c.visit.Places) == 0 {
		return
	}
	for t := range c.All() {
		if c.visit.Standing(t, c.visit.Entry.Date) {
			c.entries(entriesOf(t), t.Label())
		}
	}
	for _, e := range c.within(c.Entries) {
		if _, work := e.Effect.(*fact.Work); !work {
			continue
		}
		if p, ok := c.Place(e.At().Text); ok && slices.Contains(c.visit.Places, p) {
			c.entries([]*fact.Entry{e}, p.Name)
		}
	}
}

// within are those of some entries, which are in order, that stand below the
// treatment and in its time.
func (c closing) within(list []*fact.Entry) (out []*fact.Entry) {
	from := c.visit.Entry
	first, _ := slices.BinarySearchFunc(list, from.Date, func(e *fact.Entry, day fact.Date) int { return cmp.Compare(e.Date, day) })
	for _, e := range list[first:] {
		if e.Date >= from.Date+closedDays(c.treat.Reentry) {
			break
		}
		if inOrder(e, from) > 0 {
			out = append(out, e)
		}
	}
	return out
}

// inOrder compares entries by day, and within a day by file and line.
func inOrder(a, b *fact.Entry) int {
	return cmp.Or(cmp.Compare(a.Date, b.Date), cmp.Compare(a.File.Path, b.File.Path), cmp.Compare(a.Line, b.Line))
}

func (c closing) entries(list []*fact.Entry, name string) {
	for _, e := range c.within(list) {
		if !goesIn(e) || c.said[e] {
			continue
		}
		c.said[e] = true
		f := c.reportf(e, spanOf(e, name), []string{name}, "work on %s on %s, and after the treatment of %s the label keeps people out for %s %s; if this was later than that, allow it with the hour",
			name, e.Day().Long(), c.visit.Entry.Day().Long(), c.treat.Reentry.Value, c.treat.Reentry.Unit)
		also(f, c.visit.Entry, "treated here")
	}
}

// closedDays is on how many days, from its own on, a treatment keeps people out
// for some of the time that work is done in: a whole day for every 24 h begun.
func closedDays(q fact.Quantity) fact.Date {
	hours := q.Value.Float()
	if q.Unit == fact.Day {
		hours *= 24
	}
	days := fact.Date(hours / 24)
	if float64(days)*24 < hours {
		days++
	}
	return days
}

// goesIn reports whether an entry is work that nobody can do from outside.
func goesIn(e *fact.Entry) bool {
	switch f := e.Effect.(type) {
	case *fact.Check, *fact.Turn, *fact.Graft, *fact.Pass, *fact.Tend, *fact.Cut, *fact.Layer, *fact.Plant, *fact.Pick, *fact.Stocktake,
		*fact.Work, *fact.Join, *fact.Inspect:
		return true
	case *fact.Leave:
		return f.How != fact.Lost
	}
	return false
}

// entriesOf are the entries that name a thing.
func entriesOf(t nursery.Thing) []*fact.Entry {
	switch t := t.(type) {
	case *nursery.Lot:
		return t.Entries
	case *nursery.Tree:
		return t.Entries
	case *nursery.Limb:
		return t.Entries
	}
	return nil
}
