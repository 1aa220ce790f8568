package report

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

var due = &Report{
	Name:    "due",
	Summary: "what wants doing: checks, ties, heading back, rubbing, severing, pots, certificates, licences",
	Long: `The weekly sheet: every job that is due by the day, or will be in the days ahead (14, unless --days says otherwise),
with what is late first. When a job is due comes from the species, the method and the limits of the journal. A job is
done when it is written: check AM26: …, tend AM26 ties, tend AM26 headed, sever 7 of FG26, pot AM26 to 3 L, count AM26.
Jobs that the journal never writes down are listed for four weeks and then left out.

With --as ics it is a calendar for a telephone (RFC 5545). A job keeps its identity from one week to the next, so that the
telephone moves it and does not show it twice; what is late stands on the day of the sheet.`,
	Example: "--days 14",
	Takes:   Horizon | Filters,
	Build:   buildDue,
}

// horizon is how many days ahead the sheet looks, if nobody says otherwise.
const horizon = 14

// patience is for how many days a job stays on the sheet of a journal that never
// writes such jobs down.
const patience = 28

// A job is something that wants doing.
type job struct {
	day    fact.Date
	word   string // names the job for its identity: check, ties, …
	what   string
	of     string    // the lot, tree or variety
	made   fact.Date // when that began
	plants int32
	place  *nursery.Place
	why    string
}

func buildDue(n *nursery.Nursery, o Options) (*table.Doc, error) {
	if o.AsAt == 0 {
		return nil, errNoDay
	}
	if err := held(n, o.Filters); err != nil {
		return nil, err
	}
	days := o.Days
	if days == 0 {
		days = horizon
	}
	until := o.AsAt + fact.Date(days)
	jobs := slices.DeleteFunc(allJobs(n, o), func(j job) bool { return j.day > until })
	jobs, forgotten := leaveUnwritten(n, jobs, o.AsAt)
	slices.SortStableFunc(jobs, func(a, b job) int {
		return cmp.Or(cmp.Compare(a.day, b.day), naturally(a.of, b.of), cmp.Compare(a.word, b.word))
	})
	doc := heading(n, o, "due", "What wants doing", table.NoBasis)
	doc.Period = Period{Last: until}.Table()
	doc.Body = []table.Block{dueTable(n, jobs, o.AsAt)}
	if len(jobs) == 0 {
		doc.Notes = append(doc.Notes, fmt.Sprintf("Nothing is due in the %d days from %s.", days, o.AsAt.Long()))
	}
	if len(forgotten) > 0 {
		doc.Notes = append(doc.Notes, fmt.Sprintf("The journal never says that %s, so what was due more than four weeks ago is left out.", listed(forgotten)))
	}
	return doc, nil
}

func dueTable(n *nursery.Nursery, jobs []job, today fact.Date) table.Table {
	t := table.Table{Name: "rows", Columns: []table.Column{
		{Name: "uid", Kind: table.KindText, For: table.Machines},
		{Name: "day", Kind: table.KindDate, For: table.Machines},
		{Name: "due", Kind: table.KindDate},
		{Name: "late_days", Heading: "late", Kind: table.KindCount, Spare: 1},
		{Name: "job", Kind: table.KindText},
		{Name: "lot", Heading: "of", Kind: table.KindText, Group: true},
		{Name: "plants", Kind: table.KindCount},
		{Name: "place", Kind: table.KindText, Spare: 2},
		{Name: "why", Kind: table.KindText, Spare: 3},
	}}
	for _, j := range jobs {
		late := table.Unknown()
		if j.day < today {
			late = table.Count(today - j.day)
		}
		plants := table.Count(j.plants)
		if j.plants == 0 {
			plants = table.Unknown()
		}
		t.Add(table.Text(j.uid(farmName(n))), table.Date(max(j.day, today).String()), table.Date(j.day.String()), late, table.Text(j.what),
			table.Text(j.of), plants, textOrUnknown(placeName(j.place)), table.Text(j.why))
	}
	return t
}

// uid is the identity of a job in a calendar: it stays the same while the job
// stays undone, whenever and however often the sheet is made.
func (j job) uid(farm string) string {
	return strings.Join(strings.Fields(fmt.Sprintf("%s-%s-%s-%s@budstick", j.word, j.of, j.made, farm)), "-")
}

// leaveUnwritten leaves out the jobs that the journal never writes down and that
// have been due for long; it says what it never writes.
func leaveUnwritten(n *nursery.Nursery, jobs []job, today fact.Date) (kept []job, never []string) {
	written := map[string]bool{}
	for _, e := range n.Entries {
		if f, ok := e.Effect.(*fact.Tend); ok {
			written[f.Job.Text] = true
		}
	}
	for _, t := range tending {
		unwritten := func(j job) bool { return j.word == t.job && j.day < today-patience }
		if !written[t.job] && slices.ContainsFunc(jobs, unwritten) {
			jobs = slices.DeleteFunc(jobs, unwritten)
			never = append(never, t.done)
		}
	}
	return jobs, never
}
