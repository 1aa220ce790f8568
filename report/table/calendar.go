package table

import (
	"fmt"
	"io"
	"strings"
	"time"

	ics "github.com/arran4/golang-ical"
)

// WriteCalendar writes a table of things to do as an iCalendar (RFC 5545), one
// all-day event a row. The table is the first that has the columns uid and due
// (a date); its other columns for people make the event's words. The time stamp
// is the report's day, so that the same report is the same calendar, and an
// event keeps its uid, so that a telephone moves it and does not show it twice.
func WriteCalendar(w io.Writer, d Doc) error {
	if err := d.Check(); err != nil {
		return err
	}
	t, uid, due, ok := d.calendarTable()
	if !ok {
		return fmt.Errorf("the report %s has nothing that could stand in a calendar", d.Name)
	}
	stamp, err := time.Parse(time.DateOnly, d.AsAt)
	if err != nil {
		return fmt.Errorf("a calendar needs the day of the report, and the journal has none")
	}
	cal := ics.NewCalendarFor("budstick")
	cal.SetMethod(ics.MethodPublish)
	cal.SetName(visible(d.Title))
	for _, row := range t.Rows {
		day, err := time.Parse(time.DateOnly, row[due].Plain())
		if err != nil {
			continue // a day that is not known has no place in a calendar
		}
		event := cal.AddEvent(row[uid].Plain())
		event.SetDtStampTime(stamp)
		event.SetAllDayStartAt(day)
		event.SetAllDayEndAt(day.AddDate(0, 0, 1))
		event.SetTimeTransparency(ics.TransparencyTransparent)
		summary, detail := t.words(row, uid, due)
		event.SetSummary(summary)
		event.SetDescription(detail)
	}
	return cal.SerializeTo(w, ics.WithNewLine("\r\n"))
}

// calendarTable finds the table that can be a calendar, and its two columns.
func (d Doc) calendarTable() (t Table, uid, due int, ok bool) {
	for _, t := range d.Tables() {
		uid, due := -1, -1
		for i, c := range t.Columns {
			switch c.Name {
			case "uid":
				uid = i
			case "due":
				due = i
			}
		}
		if uid >= 0 && due >= 0 {
			return t, uid, due, true
		}
	}
	return Table{}, 0, 0, false
}

// words makes the line of an event of its first three columns, and its text of
// all.
func (t Table) words(row []Cell, skip ...int) (summary, detail string) {
	var first, all []string
	for i, c := range t.Columns {
		if c.For == Machines || !row[i].Known() || i == skip[1] || c.Name == "late_days" {
			continue
		}
		text := visible(row[i].Plain())
		if c.Kind == KindCount {
			text += " " + titled(c.Heading, c.Name, "")
		}
		if len(first) < 3 {
			first = append(first, text)
		}
		all = append(all, text)
	}
	return strings.Join(first, ", "), strings.Join(all, "\n")
}
