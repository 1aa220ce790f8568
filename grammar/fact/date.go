package fact

import (
	"fmt"
	"time"
)

// A Date is a day of the proleptic Gregorian calendar (ISO 8601), counted from
// 0001-01-01 as day 1. The zero Date is no date. Subtracting two gives days.
type Date int32

// epoch is the day before day 1, as time.Unix counts days.
const epoch = -719163

// NewDate makes a Date, or reports false where the calendar has no such day.
func NewDate(year int, month time.Month, day int) (Date, bool) {
	if year < 1 || year > 9999 || month < 1 || month > 12 || day < 1 || day > DaysIn(year, month) {
		return 0, false
	}
	return Date(time.Date(year, month, day, 0, 0, 0, 0, time.UTC).Unix()/86400 - epoch), true
}

// DaysIn is the number of days of a month.
func DaysIn(year int, month time.Month) int {
	return time.Date(year, month+1, 0, 0, 0, 0, 0, time.UTC).Day()
}

// ParseDate reads YYYY-MM-DD.
func ParseDate(s string) (Date, bool) {
	if len(s) != 10 || s[4] != '-' || s[7] != '-' {
		return 0, false
	}
	y, ok1 := digits(s[:4])
	m, ok2 := digits(s[5:7])
	d, ok3 := digits(s[8:])
	if !ok1 || !ok2 || !ok3 {
		return 0, false
	}
	return NewDate(y, time.Month(m), d)
}

func digits(s string) (int, bool) {
	n := 0
	for _, c := range []byte(s) {
		if c < '0' || c > '9' {
			return 0, false
		}
		n = n*10 + int(c-'0')
	}
	return n, true
}

// time is midnight of d in UTC.
func (d Date) time() time.Time { return time.Unix((int64(d)+epoch)*86400, 0).UTC() }

// Civil gives the year, month and day of d.
func (d Date) Civil() (year int, month time.Month, day int) { return d.time().Date() }

// Weekday is the day of the week.
func (d Date) Weekday() time.Weekday { return d.time().Weekday() }

// String writes d by ISO 8601, and nothing for no date.
func (d Date) String() string {
	if d == 0 {
		return ""
	}
	y, m, day := d.Civil()
	return fmt.Sprintf("%04d-%02d-%02d", y, m, day)
}

// Long writes d as a person says it: 2 March 2026.
func (d Date) Long() string {
	y, m, day := d.Civil()
	return fmt.Sprintf("%d %s %d", day, m, y)
}

// When is a date that may be known only to the month or the year: it lies
// between First and Last. Both are zero where nothing is known.
type When struct{ First, Last Date }

// On is a date known to the day.
func On(d Date) When { return When{d, d} }

// Exact reports whether the day is known.
func (w When) Exact() bool { return w.First == w.Last }

// A Season is a growing year. It begins on the first of a month and is named
// by the year in which it ends.
type Season struct{ First, Last Date }

// SeasonNamed is the season that ends in year, where seasons begin in month
// from (January: the season is the calendar year).
func SeasonNamed(year int, from time.Month) Season {
	from = max(from, time.January)
	begin := year
	if from > time.January {
		begin--
	}
	first, _ := NewDate(begin, from, 1)
	next, _ := NewDate(begin+1, from, 1)
	return Season{first, next - 1}
}

// SeasonOf is the season that holds d.
func SeasonOf(d Date, from time.Month) Season {
	y, m, _ := d.Civil()
	if from > time.January && m >= from {
		y++
	}
	return SeasonNamed(y, from)
}

// Year is the year that names the season.
func (s Season) Year() int { y, _, _ := s.Last.Civil(); return y }

// Contains reports whether d falls in the season.
func (s Season) Contains(d Date) bool { return s.First <= d && d <= s.Last }
