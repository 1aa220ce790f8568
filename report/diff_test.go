package report

import (
	"testing"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/stat"
)

// A difference that rounds to nothing has no sign.
func TestSignedPoints(t *testing.T) {
	for share, want := range map[float64]string{0.154: "+15", -0.018: "−2", -0.0049: "0", 0.0049: "0", 0: "0"} {
		if got := signed(share); got != want {
			t.Errorf("%v is %s, want %s", share, got, want)
		}
	}
}

// A season of which nothing can be written is refused, and so is a journal
// without a day: a page of noughts, or a day in the year 0, tells what is not so.
func TestSeasonsOutOfReach(t *testing.T) {
	const day = "farm \"Kestrel Hollow\" season from October\n2026-03-02\nnote \"snow\"\n"
	for _, test := range []struct {
		journal string
		year    int
		want    string
	}{
		{day, 2026, ""},
		{day, 2025, "season 2025 ended on 30 September 2025, and the journal begins on 2 March 2026"},
		{day, 2027, "season 2027 begins on 1 October 2026, and the journal is known up to 2 March 2026"},
		{"farm \"Kestrel Hollow\"\n", 2026, errNoDay.Error()},
	} {
		n := replayed(test.journal)
		for _, r := range []*Report{season, diff} {
			_, err := r.Build(n, Options{AsAt: n.Last, Periods: []Period{seasonPeriod(n, test.year), seasonPeriod(n, test.year)}})
			if err == nil && test.want != "" || err != nil && err.Error() != test.want {
				t.Errorf("%s %d: %v, want %q", r.Name, test.year, err, test.want)
			}
		}
	}
	if n := replayed("farm \"Kestrel Hollow\"\n"); n.Last == 0 {
		if _, err := due.Build(n, Options{}); err != errNoDay {
			t.Errorf("due: %v", err)
		}
	}
}

// Attempts are compared from the day on which they are of the age asked for.
func TestRipeOnTheDay(t *testing.T) {
	b := &nursery.Batch{Kind: nursery.GraftBatch, Day: 1000, Made: 10, Took: 8, Failed: 2}
	for asAt, unripe := range map[fact.Date]int{1029: 10, 1030: 0} {
		var r ripened
		if r.add(b, 30, asAt); r.unripe != unripe || r.made != 10-unripe || r.pool != (stat.Tally{X: 8 - 8*unripe/10, N: 10 - unripe}) {
			t.Errorf("day %d: %+v", asAt, r)
		}
	}
}

// Why two takes can't be compared, whichever of the two it is for.
func TestMissing(t *testing.T) {
	none, young := ripened{}, ripened{unripe: 5}
	unseen, known := ripened{made: 5}, ripened{made: 5, pool: stat.Tally{X: 3, N: 5}}
	for _, c := range []struct {
		a, b ripened
		want string
	}{
		{none, known, "new"}, {known, none, "gone"}, {young, known, "not ripe"}, {known, young, "not ripe"},
		{unseen, known, "not known"}, {known, unseen, "not known"},
	} {
		if got := missing(c.a, c.b); got != c.want {
			t.Errorf("%+v and %+v: %s, want %s", c.a, c.b, got, c.want)
		}
	}
}
