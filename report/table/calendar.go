package table

import (
	"fmt"
	"io"
	"strings"
	"time"

	ics "github.com/arran4/golang-ical"
)

// WriteCalendar writes a table of things to do as an iCalendar (RFC 5545), one
// all-day event a row. The table is the first that has the columns uid and day
// (a date); its columns for people make the event's words. An event keeps its
// uid, so that a telephone moves it and does not show it twice. The time stamp
// is the report's day, so that the same report is the same calendar; the number
// of the revision counts the days, since a telephone may pass over one that does
// not grow. There is no METHOD: the one that fits, PUBLISH, wants an organizer
// with a mail address (RFC 5546, 3.2.1), and without one the file is a snapshot
// (RFC 5545, 3.7.2), which is what it is.
func WriteCalendar(w io.Writer, d Doc) error {
	if err := d.Check(); err != nil {
		return err
	}
	t, uid, at, ok := d.calendarTable()
	if !ok {
		return fmt.Errorf("the report %s has nothing that could stand in a calendar", d.Name)
	}
	stamp, err := time.Parse(time.DateOnly, d.AsAt)
	if err != nil {
		return fmt.Errorf("a calendar needs the day of the report, and the journal has none")
	}
	cal := ics.NewCalendarFor("budstick")
	cal.SetProductId("-//budstick//" + d.Name + "//EN")
	cal.SetName(visible(d.Title))
	for _, row := range t.Rows {
		day, err := time.Parse(time.DateOnly, row[at].Plain())
		if err != nil {
			continue // a day that is not known has no place in a calendar
		}
		event := cal.AddEvent(row[uid].Plain())
		event.SetDtStampTime(stamp)
		event.SetSequence(int(stamp.Sub(firstRevision).Hours() / 24))
		event.SetAllDayStartAt(day)
		event.SetAllDayEndAt(day.AddDate(0, 0, 1))
		event.SetTimeTransparency(ics.TransparencyTransparent)
		summary, detail := t.words(row)
		event.SetSummary(summary)
		event.SetDescription(detail)
	}
	return cal.SerializeTo(w, ics.WithNewLine("\r\n"))
}

// firstRevision is the day from which revisions are counted.
var firstRevision = time.Date(2000, time.January, 1, 0, 0, 0, 0, time.UTC)

// calendarTable finds the table that can be a calendar, and its two columns.
func (d Doc) calendarTable() (t Table, uid, day int, ok bool) {
	for _, t := range d.Tables() {
		if uid, day := t.column("uid"), t.column("day"); uid >= 0 && day >= 0 {
			return t, uid, day, true
		}
	}
	return Table{}, 0, 0, false
}

// words makes the line of an event of its first three columns of words and
// counts, and its text of all that people see.
func (t Table) words(row []Cell) (summary, detail string) {
	var first, all []string
	for i, c := range t.Columns {
		if c.For == Machines || !row[i].Known() {
			continue
		}
		text := visible(row[i].Plain())
		named := titled(c.Heading, c.Name, "") + ": " + text
		all = append(all, named)
		switch {
		case c.Kind == KindText && len(first) < 3:
			first = append(first, text)
		case c.Kind == KindCount && len(first) == 2:
			first = append(first, text+" "+titled(c.Heading, c.Name, ""))
		}
	}
	return strings.Join(first, ", "), strings.Join(all, "\n")
}
