package table

import (
	"slices"
	"strings"
)

// facts writes headings and values in two columns, or one below the other where
// the headings leave no room.
func (t *textWriter) facts(f Facts) {
	t.title(f.Title)
	items := slices.DeleteFunc(slices.Clone(f.Items), func(f Fact) bool { return f.For == Machines })
	var notes footnotes
	room := 0
	for _, item := range items {
		if _, isMatrix := item.Value.(Matrix); !isMatrix {
			room = max(room, width(item.title()))
		}
	}
	for _, item := range items {
		heading := item.title()
		switch v := item.Value.(type) {
		case Matrix:
			t.gap()
			t.paragraph("", heading, t.style.Strong)
			t.matrix(v, item.Decimals)
			t.gap()
		default:
			text := t.fact(item, &notes)
			if room+2+len("2026-01-01") <= t.width {
				t.paragraph(pad(heading, room, false)+"  ", text, nil)
			} else {
				t.paragraph("", heading+": "+text, nil)
			}
		}
	}
	t.footnotes(notes)
}

// title returns the heading of a fact with the unit of its value.
func (f Fact) title() string {
	unit := f.Unit
	if c, isCell := f.Value.(Cell); isCell && unit == "" {
		switch c.kind {
		case KindChange:
			unit = "points"
		case KindDays:
			unit = "days"
		}
	}
	return titled(f.Heading, f.Name, unit)
}

// fact writes the cell or list of a fact for people.
func (n numerals) fact(f Fact, notes *footnotes) string {
	switch v := f.Value.(type) {
	case Cell:
		l := lookOf([]Cell{v}).withDecimals(v.kind, f.Decimals)
		l.code = true
		return n.write(v, l) + notes.sign(v.marks)
	case List:
		l := lookOf(v).withDecimals(KindNumber, f.Decimals)
		var parts []string
		for _, c := range v {
			parts = append(parts, n.write(c, l))
		}
		return strings.Join(parts, ", ")
	}
	return ""
}

func (t *textWriter) footnotes(notes footnotes) {
	for i, m := range notes {
		t.paragraph(footnoteSign(i)+" ", visible(m.Note), t.style.Dim)
	}
}
