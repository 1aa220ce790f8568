package fact

import (
	"testing"
	"time"

	"pgregory.net/rapid"
)

// TestWeekdays checks days whose weekday is known from outside.
func TestWeekdays(t *testing.T) {
	for text, want := range map[string]time.Weekday{
		// The epoch of Unix time was a Thursday (from memory).
		"1970-01-01": time.Thursday,
		// ISO 8601:2004 writes the day 1985-04-12 as 1985-W15-5, the fifth day
		// of a week that begins on Monday (from memory).
		"1985-04-12": time.Friday,
		// RFC 5322, appendix A.1.1: Fri, 21 Nov 1997.
		"1997-11-21": time.Friday,
		// RFC 9110, section 5.6.7: Sun, 06 Nov 1994.
		"1994-11-06": time.Sunday,
		// The year 2000 began on a Saturday and was a leap year (from memory).
		"2000-01-01": time.Saturday,
		"2000-02-29": time.Tuesday,
		// The first day of the Gregorian calendar, by the bull Inter gravissimas
		// of 1582: the day after Thursday 4 October (from memory).
		"1582-10-15": time.Friday,
	} {
		d, ok := ParseDate(text)
		if !ok || d.Weekday() != want || d.String() != text {
			t.Errorf("%s is read as %s, a %s; want a %s", text, d, d.Weekday(), want)
		}
	}
}

func TestParseDate(t *testing.T) {
	for _, text := range []string{"1900-02-29", "2026-02-29", "2026-00-10", "2026-13-01", "2026-04-31", "0000-01-01", "2026-4-01", "2026-04-1", "2026/04/01", "2026-04-01x", ""} {
		if d, ok := ParseDate(text); ok {
			t.Errorf("%q is no date but is read as %s", text, d)
		}
	}
	for _, text := range []string{"0001-01-01", "1900-02-28", "2024-02-29", "9999-12-31"} {
		if d, ok := ParseDate(text); !ok || d.String() != text {
			t.Errorf("%q is read as %q", text, d)
		}
	}
}

// TestDatesCountDays holds that dates are days in a row, as the calendar of the
// standard library counts them.
func TestDatesCountDays(t *testing.T) {
	if first, _ := ParseDate("0001-01-01"); first != 1 {
		t.Errorf("the first day is %d", first)
	}
	rapid.Check(t, func(t *rapid.T) {
		d := Date(rapid.Int32Range(1, 3_652_058).Draw(t, "day"))
		y, m, day := d.Civil()
		next := time.Date(y, m, day+1, 0, 0, 0, 0, time.UTC)
		if again, ok := NewDate(next.Year(), next.Month(), next.Day()); !ok || again != d+1 {
			t.Fatalf("the day after %s is %s", d, again)
		}
		if parsed, ok := ParseDate(d.String()); !ok || parsed != d {
			t.Fatalf("%s is read as %s", d, parsed)
		}
	})
}

func TestSeasons(t *testing.T) {
	for _, c := range []struct {
		from        time.Month
		year        int
		first, last string
	}{
		{time.October, 2026, "2025-10-01", "2026-09-30"},
		{time.January, 2026, "2026-01-01", "2026-12-31"},
		{0, 2026, "2026-01-01", "2026-12-31"},
		{time.March, 2024, "2023-03-01", "2024-02-29"},
	} {
		s := SeasonNamed(c.year, c.from)
		if s.First.String() != c.first || s.Last.String() != c.last || s.Year() != c.year {
			t.Errorf("season %d from %s is %s to %s, named %d", c.year, c.from, s.First, s.Last, s.Year())
		}
		for _, d := range []Date{s.First, s.Last} {
			if got := SeasonOf(d, c.from); got != s {
				t.Errorf("%s falls in %s to %s", d, got.First, got.Last)
			}
		}
		if s.Contains(s.First-1) || s.Contains(s.Last+1) {
			t.Errorf("season %d contains a day outside", c.year)
		}
	}
}

func TestParseDecimal(t *testing.T) {
	for text, want := range map[string]Decimal{
		"0": {}, "12": {12, 0}, "12.50": {1250, 2}, "0.05": {5, 2}, "007.1": {71, 1}, "999999999999999999": {999999999999999999, 0},
	} {
		if d, ok := ParseDecimal(text); !ok || d != want {
			t.Errorf("%q is read as %+v", text, d)
		}
	}
	for _, text := range []string{"", ".5", "-1", "1.2.3", "1,2", "1e3", "1234567890123456789", "1 2"} {
		if d, ok := ParseDecimal(text); ok {
			t.Errorf("%q is no number but is read as %+v", text, d)
		}
	}
	for text, want := range map[string]string{"12.50": "12.50", "0.05": "0.05", "7": "7", "0.0": "0.0"} {
		if d, _ := ParseDecimal(text); d.String() != want {
			t.Errorf("%s is written %s", text, d)
		}
	}
}
