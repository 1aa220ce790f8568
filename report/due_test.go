package report

import (
	"maps"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/grammar/source"
)

const checkedLate = `farm "Kestrel Hollow"
variety Amberlight species "Eriobotrya japonica"
variety "Quince BA" species "Cydonia oblonga" use rootstock
tree M7 variety Amberlight planted 2013
limit first-check 21 days
limit stale-check 70 days
limit unused-lot 20 years
2026-03-02
buy 50 liners of "Quince BA" as "QB 25" from "Valley Liners"
graft 40 of "QB 25" with M7 by cleft as "AM, 26"
2026-03-30
check "AM, 26": 30 took, 5 failed, 5 unsure
2026-05-11
check "AM, 26": 5 took
`

// sheet is a sheet's jobs: their identity and the day in the calendar.
func sheet(t *testing.T, text, asAt string) map[string]string {
	t.Helper()
	day, ok := fact.ParseDate(asAt)
	if !ok {
		t.Fatal(asAt)
	}
	n := nursery.Replay([]*entry.Page{entry.Read(source.New("farm.bud", []byte(text)))}, day)
	doc, err := buildDue(n, Options{AsAt: day, Days: 30})
	if err != nil {
		t.Fatal(err)
	}
	days := map[string]string{}
	for _, row := range doc.Tables()[0].Rows {
		days[row[0].Plain()] = row[1].Plain()
	}
	return days
}

// A sheet of thirty days goes up to the thirtieth.
func TestTheLastDayOfASheet(t *testing.T) {
	const look = "check-AM,-26-2026-03-02-Kestrel-Hollow@budstick"
	for asAt, want := range map[string]string{"2026-04-10": "", "2026-04-11": "2026-05-11"} {
		if got := sheet(t, checkedLate, asAt)[look]; got != want {
			t.Errorf("on %s the look is on %q, want %q", asAt, got, want)
		}
	}
}

// From week to week a job keeps its identity and moves: to the day of the sheet
// when it is late, to the next look when some were left unseen. Done, it is gone.
func TestJobsKeepTheirIdentity(t *testing.T) {
	const look = "check-AM,-26-2026-03-02-Kestrel-Hollow@budstick"
	for asAt, want := range map[string]string{
		"2026-03-09": "2026-03-23", "2026-03-16": "2026-03-23", "2026-03-23": "2026-03-23", "2026-03-29": "2026-03-29",
		"2026-04-20": "2026-05-11", "2026-05-10": "2026-05-11", "2026-05-11": "",
	} {
		if got := sheet(t, checkedLate, asAt)[look]; got != want {
			t.Errorf("on %s the look is on %q, want %q", asAt, got, want)
		}
	}
}

// No two jobs of a sheet are one event, or a telephone would show the last of
// them alone (RFC 5545, 3.8.4.7: UID is globally unique).
func TestJobsAreToldApart(t *testing.T) {
	n := nursery.Replay(kestrelPages(t), 0)
	jobs := 0
	for day := n.Last - 3*365; day <= n.Last; day += 7 {
		then := nursery.Replay(n.Pages, day)
		doc, err := buildDue(then, Options{AsAt: day, Days: 60})
		if err != nil {
			t.Fatal(err)
		}
		seen := map[string]bool{}
		for _, row := range doc.Tables()[0].Rows {
			if uid := row[0].Plain(); seen[uid] {
				t.Errorf("on %s two jobs are %s", day, uid)
			} else {
				seen[uid] = true
				jobs++
			}
		}
	}
	if jobs < 500 {
		t.Errorf("only %d jobs in all", jobs)
	}
}

// Ties that nobody ever writes down leave the sheet after four weeks: they were
// due 56 days after grafting, on 27 April.
func TestUnwrittenJobsLeaveTheSheet(t *testing.T) {
	ties := func(jobs map[string]string) []string {
		return slices.DeleteFunc(slices.Sorted(maps.Keys(jobs)), func(uid string) bool { return uid[:4] != "ties" })
	}
	const once = checkedLate + "2026-07-01\nnote \"rain\"\n"
	const uid = "ties-AM,-26-2026-03-02-Kestrel-Hollow@budstick"
	limits := "limit ties-off 56 days\n"
	for _, test := range []struct {
		journal, asAt string
		want          []string
	}{
		{limits + once, "2026-05-25", []string{uid}},
		{limits + once, "2026-05-26", []string{}},
		{limits + once + "2026-05-01\ntend M7 ties\n", "2026-05-26", []string{uid}},
	} {
		if diff := cmp.Diff(test.want, ties(sheet(t, test.journal, test.asAt))); diff != "" {
			t.Errorf("%s: -want +got:\n%s", test.asAt, diff)
		}
	}
}
