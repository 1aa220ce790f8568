package table

import (
	"bytes"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	ics "github.com/arran4/golang-ical"
	"pgregory.net/rapid"
)

// calendarSample is a sheet of one job.
func calendarSample(asAt, day, job, of string) Doc {
	return Doc{Name: "due", Title: "What wants doing", AsAt: asAt, Body: []Block{Table{
		Name: "rows",
		Columns: []Column{
			{Name: "uid", Kind: KindText, For: Machines}, {Name: "day", Kind: KindDate, For: Machines}, {Name: "due", Kind: KindDate},
			{Name: "job", Kind: KindText}, {Name: "of", Kind: KindText}, {Name: "plants", Kind: KindCount},
		},
		Rows: [][]Cell{{Text("check-" + of + "@budstick"), Date(day), Date("2026-03-23"), Text(job), Text(of), Count(40)}},
	}}}
}

func asCalendar(t interface{ Fatal(...any) }, d Doc) string {
	var b bytes.Buffer
	if err := WriteCalendar(&b, d); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// The properties that RFC 5545 requires or allows once, in its own words' form:
// VERSION and PRODID (3.6), UID and DTSTAMP (3.6.1), an all-day event by
// VALUE=DATE whose end is the day after (3.6.1, the example of the Bastille Day
// party has the same form), SEQUENCE a whole number (3.8.7.4), DTSTAMP in UTC
// (3.8.7.2), PRODID of the program that wrote the file (3.7.3), and no METHOD,
// which would need an ORGANIZER (RFC 5546, 3.2.1).
func TestCalendarHasWhatTheStandardAsks(t *testing.T) {
	got := asCalendar(t, calendarSample("2026-03-20", "2026-03-23", "check grafts", "AM26"))
	want := strings.ReplaceAll(`BEGIN:VCALENDAR
VERSION:2.0
PRODID:-//budstick//due//EN
NAME:What wants doing
X-WR-CALNAME:What wants doing
BEGIN:VEVENT
UID:check-AM26@budstick
DTSTAMP:20260320T000000Z
SEQUENCE:9575
DTSTART;VALUE=DATE:20260323
DTEND;VALUE=DATE:20260324
TRANSP:TRANSPARENT
SUMMARY:check grafts\, AM26\, 40 plants
DESCRIPTION:due: 2026-03-23\njob: check grafts\nof: AM26\nplants: 40
END:VEVENT
END:VCALENDAR
`, "\n", "\r\n")
	if got != want {
		t.Errorf("got\n%s", got)
	}
	// 9575 days lie between 2000-01-01 and 2026-03-20.
	if days := time.Date(2026, 3, 20, 0, 0, 0, 0, time.UTC).Sub(time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)).Hours() / 24; days != 9575 {
		t.Errorf("%v days", days)
	}
}

// Texts are escaped as RFC 5545, 3.3.11 has it: of its example, "Project XYZ
// Final Review\nConference Room - 3B\nCome Prepared." with line feeds, and of
// its rule that backslash, semicolon and comma are escaped and colon is not.
func TestCalendarEscapesAsTheStandardDoes(t *testing.T) {
	d := calendarSample("2026-03-20", "2026-03-23", `a;b, c: d\e`, "AM26")
	if got := unfolded(asCalendar(t, d)); !strings.Contains(got, `SUMMARY:a\;b\, c: d\\e\, AM26\, 40 plants`+"\r\n") {
		t.Errorf("got\n%s", got)
	}
	if got := unfolded(asCalendar(t, d)); !strings.Contains(got, `DESCRIPTION:due: 2026-03-23\njob: a\;b`) {
		t.Errorf("a line feed is no \\n:\n%s", got)
	}
}

// unfolded takes the folds out, as RFC 5545, 3.1 says: CRLF and one blank.
func unfolded(s string) string { return strings.ReplaceAll(s, "\r\n ", "") }

// Whatever is in a journal: lines end in CR LF and have no more than 75 octets
// without it, no character is cut in two (RFC 5545, 3.1), and a reader of such
// calendars finds the words again.
func TestCalendarsAreRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		job := rapid.StringMatching(`[a-zäß木,;:\\" ]{0,120}x`).Draw(t, "job")
		of := rapid.StringMatching(`[A-Z木]{1,40}[0-9]{1,40}`).Draw(t, "of")
		text := asCalendar(t, calendarSample("2026-03-20", "2026-03-23", job, of))
		for line := range strings.SplitSeq(strings.TrimSuffix(text, "\r\n"), "\r\n") {
			if len(line) > 75 || strings.ContainsAny(line, "\r\n") || !utf8.ValidString(line) {
				t.Fatalf("line of %d octets: %q", len(line), line)
			}
		}
		cal, err := ics.ParseCalendar(strings.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		events := cal.Events()
		if len(events) != 1 {
			t.Fatalf("%d events", len(events))
		}
		start, err := events[0].GetAllDayStartAt()
		if err != nil || start.Format(time.DateOnly) != "2026-03-23" {
			t.Errorf("it starts %v (%v)", start, err)
		}
		if got := events[0].Id(); got != "check-"+of+"@budstick" {
			t.Errorf("uid %q", got)
		}
		if got, want := events[0].GetProperty(ics.ComponentPropertySummary).Value, visible(job)+", "+of+", 40 plants"; got != want {
			t.Errorf("summary %q, want %q", got, want)
		}
	})
}

// A later sheet moves the event: the same identity, a greater revision.
func TestCalendarMovesAnEvent(t *testing.T) {
	read := func(asAt, day string) *ics.VEvent {
		cal, err := ics.ParseCalendar(strings.NewReader(asCalendar(t, calendarSample(asAt, day, "check grafts", "AM26"))))
		if err != nil {
			t.Fatal(err)
		}
		return cal.Events()[0]
	}
	before, after := read("2026-03-20", "2026-03-23"), read("2026-03-27", "2026-03-27")
	revision := func(e *ics.VEvent) string { return e.GetProperty(ics.ComponentPropertySequence).Value }
	if before.Id() != after.Id() || revision(before) != "9575" || revision(after) != "9582" {
		t.Errorf("%s at %s, then %s at %s", before.Id(), revision(before), after.Id(), revision(after))
	}
}

func TestNoCalendar(t *testing.T) {
	for _, d := range []Doc{
		{Name: "stock", Title: "Plants", AsAt: "2026-03-20", Body: []Block{Table{Name: "rows", Columns: []Column{{Name: "lot", Kind: KindText}}}}},
		calendarSample("", "2026-03-23", "check grafts", "AM26"),
	} {
		var b bytes.Buffer
		if err := WriteCalendar(&b, d); err == nil || b.Len() > 0 {
			t.Errorf("%s: %v\n%s", d.Name, err, b.String())
		}
	}
	d := calendarSample("2026-03-20", "", "check grafts", "AM26")
	d.Body[0].(Table).Rows[0][1] = Unknown()
	if got := asCalendar(t, d); strings.Contains(got, "VEVENT") {
		t.Errorf("an event without a day:\n%s", got)
	}
}
