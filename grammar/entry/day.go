package entry

import (
	"fmt"
	"strings"
	"time"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/grammar/syntax"
)

// A Day is what entries stand under where a stretch of a file begins or ends.
// The zero Day is that of a file's beginning.
type Day struct {
	day   fact.Date
	at    line // where day stands
	lost  bool // the last day line could not be read
	begun bool // an entry stands above
}

type line struct {
	file *source.File
	span source.Span
}

// Date is the last day that could be read, or none.
func (d Day) Date() fact.Date { return d.day }

// A dayReader follows the day lines of a stretch.
type dayReader struct {
	Day
	reader reader
}

// line reads a day line: a date, and the weekday if the grower wrote one.
func (d *dayReader) line(c syntax.Chunk) {
	r := &d.reader
	r.toks = syntax.Lex(r.file.Bytes, c.Span, r.toks[:0])
	r.failed = false
	day, ok := r.dayLine()
	d.lost = !ok
	if !ok {
		return
	}
	if day < d.day {
		r.report(finding.Finding{
			Span: r.toks[0].Span, Severity: finding.Error, Rule: "day-order",
			Message: fmt.Sprintf("%s comes after %s in this file; days never go back, so write it under a later day with: happened %s",
				day, d.day, day),
			Related: []finding.Related{{File: d.at.file, Span: d.at.span, Message: "the later day"}},
		})
	}
	d.day, d.at = day, line{r.file, r.toks[0].Span}
}

// dayLine is the day that a line names. It reports false where the day is in
// doubt: nothing under the line counts then.
func (r *reader) dayLine() (fact.Date, bool) {
	first := r.toks[0]
	text := syntax.Hyphens(r.file.Text(first.Span))
	if first.Kind != syntax.Date {
		r.badDay(first, text)
		return 0, false
	}
	day, ok := fact.ParseDate(text)
	if !ok {
		r.errorf(first.Span, "date", "%s", noSuchDay(text))
		return 0, false
	}
	next := 1
	if weekday, ok := r.weekday(); ok {
		next = 2
		if weekday != day.Weekday() {
			span := r.toks[1].Span
			r.report(finding.Finding{
				Span: span, Severity: finding.Error, Rule: "weekday",
				Message: fmt.Sprintf("%s is a %s, not a %s; put the date or the weekday right", day.Long(), day.Weekday(), weekday),
				Mend:    &finding.Mend{Span: span, Text: day.Weekday().String()[:3]},
			})
			return 0, false
		}
	}
	if next < len(r.toks) {
		if short, ok := shortWeekday(r.file.Text(r.toks[next].Span)); ok && next == 1 {
			r.report(finding.Finding{
				Span: r.toks[next].Span, Severity: finding.Error, Rule: "date",
				Message: fmt.Sprintf("a weekday has three letters or more: %s", short),
				Mend:    &finding.Mend{Span: r.toks[next].Span, Text: short},
			})
			return 0, false
		}
		r.report(finding.Finding{
			Span: r.toks[next].Span, Severity: finding.Error, Rule: "date",
			Message: "only a weekday may follow the date (Mon Tue Wed Thu Fri Sat Sun); an entry stands on a line of its own",
			Mend:    &finding.Mend{Span: source.Span{Start: r.toks[next-1].Span.End, End: r.toks[next].Span.Start}, Text: "\n"},
		})
	}
	return day, true
}

// weekday is the weekday behind the date, by its name or at least three letters
// of it.
func (r *reader) weekday() (time.Weekday, bool) {
	if len(r.toks) < 2 {
		return 0, false
	}
	word := strings.ToLower(r.file.Text(r.toks[1].Span))
	for d := time.Sunday; d <= time.Saturday && len(word) >= 3; d++ {
		if strings.HasPrefix(strings.ToLower(d.String()), word) {
			return d, true
		}
	}
	return 0, false
}

// shortWeekday is the weekday that two letters stand for.
func shortWeekday(word string) (string, bool) {
	for d := time.Sunday; d <= time.Saturday && len(word) == 2; d++ {
		if strings.EqualFold(d.String()[:2], word) {
			return d.String()[:3], true
		}
	}
	return "", false
}

// badDay explains a line that begins with a number but is no day.
func (r *reader) badDay(first syntax.Token, text string) {
	switch {
	case first.Kind == syntax.Month:
		r.errorf(first.Span, "date", "the day is missing; write %s-01, or the day it was", text)
	case !r.otherDate(0):
		r.errorf(first.Span, "date", "a line that begins with a number is a day, such as 2026-03-02; an entry begins with its verb")
	}
}

// otherDate reports a date in another form that begins at a token, if there is
// one: 2 March 2026, 2. 3. 2026 or March 2, 2026.
func (r *reader) otherDate(from int) bool {
	const most = 5
	for last := from; last < min(from+most, len(r.toks)); last++ {
		span := source.Span{Start: r.toks[from].Span.Start, End: r.toks[last].Span.End}
		say, mend := yearFirst(r.file.Text(span))
		if say == "" {
			continue
		}
		f := finding.Finding{Span: span, Severity: finding.Error, Rule: "date", Message: say}
		if mend != "" {
			f.Mend = &finding.Mend{Span: span, Text: mend}
		}
		r.report(f)
		return true
	}
	return false
}

// noSuchDay explains a date that the calendar lacks.
func noSuchDay(text string) string {
	var y, m, d int
	fmt.Sscanf(text, "%d-%d-%d", &y, &m, &d)
	switch {
	case y < 1:
		return text + " is no date; years begin at 1"
	case m >= 1 && m <= 12:
		return fmt.Sprintf("%s is no date; %s %d has %d days", text, time.Month(m), y, fact.DaysIn(y, time.Month(m)))
	case d >= 1 && d <= 12 && m <= 31:
		return fmt.Sprintf("%s is no date; the month comes before the day: %04d-%02d-%02d", text, y, d, m)
	}
	return text + " is no date; it is year-month-day, such as 2026-03-02"
}
