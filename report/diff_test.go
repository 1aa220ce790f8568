package report

import "testing"

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
