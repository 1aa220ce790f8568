package report

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

var due = &Report{
	Name:    "due",
	Summary: "what wants doing: checks, ties, cutting back, rubbing, severing, pots outgrown",
	Long: `The weekly sheet: every job that is due by the day, or will be in the days ahead (14, unless --days says otherwise),
with what is late first. When a job is due comes from the species, the method and the limits of the journal. A job is
done when it is written: check AM26: …, tend AM26 ties, sever 7 of FG26, pot AM26 to 3 L.

With --as ics it is a calendar for a telephone (RFC 5545). A job keeps its identity from one week to the next, so that the
telephone moves it and does not show it twice.`,
	Example: "--days 14",
	Takes:   Horizon | Filters,
	Build:   buildDue,
}

// horizon is how many days ahead the sheet looks, if nobody says otherwise.
const horizon = 14

// A job is something that wants doing to a lot.
type job struct {
	day    fact.Date
	word   string // names the job for its identity: check, ties, …
	what   string
	lot    *nursery.Lot
	plants int32
	why    string
}

func buildDue(n *nursery.Nursery, o Options) (*table.Doc, error) {
	days := o.Days
	if days == 0 {
		days = horizon
	}
	until := o.AsAt + fact.Date(days)
	var jobs []job
	for _, l := range n.Lots {
		if l.Plants() == 0 || !lotPasses(n, l, o.Filters) {
			continue
		}
		for _, j := range jobsOf(n, l, o.AsAt) {
			if j.day <= until {
				jobs = append(jobs, j)
			}
		}
	}
	slices.SortStableFunc(jobs, func(a, b job) int {
		return cmp.Or(cmp.Compare(a.day, b.day), cmp.Compare(a.lot.Name, b.lot.Name), cmp.Compare(a.word, b.word))
	})
	doc := heading(n, o, "due", fmt.Sprintf("What wants doing up to %s", until.Long()), table.NoBasis)
	doc.Body = []table.Block{dueTable(jobs, o.AsAt)}
	if len(jobs) == 0 {
		doc.Notes = []string{fmt.Sprintf("Nothing is due in the %d days from %s.", days, o.AsAt.Long())}
	}
	return doc, nil
}

func dueTable(jobs []job, today fact.Date) table.Table {
	t := table.Table{Name: "rows", Columns: []table.Column{
		{Name: "uid", Kind: table.KindText, For: table.Machines},
		{Name: "due", Kind: table.KindDate},
		{Name: "late_days", Heading: "late", Kind: table.KindDays, Spare: 1},
		{Name: "job", Kind: table.KindText},
		{Name: "lot", Kind: table.KindText, Group: true},
		{Name: "plants", Kind: table.KindCount},
		{Name: "place", Kind: table.KindText, Spare: 2},
		{Name: "why", Kind: table.KindText, Spare: 3},
	}}
	for _, j := range jobs {
		late := table.Unknown()
		if j.day < today {
			late = table.Days(today - j.day)
		}
		t.Add(table.Text(j.uid()), table.Date(j.day.String()), late, table.Text(j.what), table.Text(j.lot.Name),
			table.Count(j.plants), textOrUnknown(placeName(j.lot.Place)), table.Text(j.why))
	}
	return t
}

// uid is the identity of a job in a calendar: it stays the same while the job
// stays undone, whenever and however often the sheet is made.
func (j job) uid() string {
	return fmt.Sprintf("%s-%s-%s@budstick", j.word, j.lot.Made.Day(), j.lot.Name)
}

// jobsOf are the jobs that are still to be done on a lot, whenever they are due.
func jobsOf(n *nursery.Nursery, l *nursery.Lot, today fact.Date) []job {
	var jobs []job
	add := func(day fact.Date, word, what string, plants int32, why string) {
		jobs = append(jobs, job{day, word, what, l, plants, why})
	}
	b := l.Batch
	if b != nil && l.On[fact.Waiting] > 0 {
		day, why := lookDay(n, l)
		add(day, "check", lookWord[b.Kind], l.On[fact.Waiting], why)
	}
	if b != nil && l.On[fact.Attached] > 0 {
		if limit, ok := n.Limit("sever-age", today, limitKeys(b)...); ok {
			add(b.Day+limit.Days(), "sever", "sever what rooted", l.On[fact.Attached], "rooted, still on "+l.Mother.Name)
		}
	}
	if b != nil && b.Kind == nursery.GraftBatch && l.Grafted() && l.On[fact.Living] > l.Bare {
		for _, t := range tending {
			if limit, ok := n.Limit(t.limit, today, limitKeys(b)...); ok && !l.Tended(t.job) {
				add(b.Day+limit.Days(), t.job, t.what, l.On[fact.Living], fmt.Sprintf("%s after grafting", limit))
			}
		}
	}
	if l.Pot != (nursery.Pot{}) && l.Free(fact.AnyState) > 0 {
		if limit, ok := n.Limit("pot-age", today, identityKeys(l.Top)...); ok {
			add(l.Pot.Since+limit.Days(), "pot", "pot on, sell or plant", l.Free(fact.AnyState), fmt.Sprintf("in %s for %s", l.Pot, limit))
		}
	}
	return jobs
}

// tending is the jobs that follow a graft, by the limit that says when.
var tending = []struct{ job, limit, what string }{
	{"rubbed", "rubbed-by", "rub off the stock's shoots"},
	{"ties", "ties-off", "take the ties off"},
}

var lookWord = [...]string{
	nursery.GraftBatch: "check the grafts", nursery.LayerBatch: "look at the layers",
	nursery.CuttingBatch: "look at the cuttings", nursery.SeedBatch: "count what came up",
}

// lookDay is when what waits in a lot is to be looked at: on the first-check
// day, or after a check that left some unseen, before it goes stale.
func lookDay(n *nursery.Nursery, l *nursery.Lot) (fact.Date, string) {
	b := l.Batch
	if b.Kind == nursery.SeedBatch {
		return b.Stale, "sown " + b.Day.Long()
	}
	for i := len(b.Checks) - 1; i >= 0; i-- {
		if seen := b.Checks[i].Day(); seen >= b.FirstCheck {
			return max(seen, b.Stale), "some were left at the check of " + seen.Long()
		}
	}
	return b.FirstCheck, b.Lot.How.String() + " " + b.Day.Long()
}

// limitKeys are what a limit of attempts may be given for, nearest first.
func limitKeys(b *nursery.Batch) []string {
	if b.Method == nil {
		return identityKeys(b.Top)
	}
	return append([]string{b.Method.Name}, identityKeys(b.Top)...)
}

func identityKeys(id nursery.Identity) []string {
	if id.Variety == nil {
		return nil
	}
	return []string{id.Variety.Name, id.Variety.Species}
}
