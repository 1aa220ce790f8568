package table

import (
	"bytes"
	"fmt"
	"html/template"
	"math"
	"slices"
	"strings"
)

type (
	tableView struct {
		Name, Cut string
		OffPaper  string // what is left out in print
		Titled    bool
		Heading   template.HTML
		Columns   []columnView
		Rows      [][]cellView
		Total     []cellView
	}
	columnView struct {
		Heading, Class string
		Ends           []string // of the scale that the cells are drawn on
	}
	cellView struct {
		Text, Signs, Class string
		Header             bool
		Strip              template.HTML
	}
)

// table makes the view of a sheet. A table without a title takes the one given
// beside it for those who can't see where it stands.
func (b *pageBuilder) table(s sheet, title, instead string, level int) tableView {
	v := tableView{Name: visible(title), Titled: title != "", Heading: heading(level, title)}
	if !v.Titled {
		v.Name = visible(instead)
		v.Heading = template.HTML(template.HTMLEscapeString(v.Name))
	}
	v.Name = b.unlike(v.Name)
	if left := s.leaveOffPaper(); len(left) > 0 {
		v.OffPaper = visible("Left out to fit the paper: " + strings.Join(left, ", ") + ". A screen shows them.")
	}
	for i, c := range s.columns {
		view := columnView{Heading: c.heading, Class: s.class(i)}
		if c.scale != nil {
			view.Ends = []string{b.tick(*c.scale, c.scale.low), b.tick(*c.scale, c.scale.high)}
		}
		v.Columns = append(v.Columns, view)
	}
	for _, row := range s.rows[:min(len(s.rows), b.maxRows)] {
		v.Rows = append(v.Rows, s.cells(row))
	}
	if s.total != nil {
		v.Total = s.cells(s.total)
	}
	if len(s.rows) > b.maxRows {
		v.Cut = b.cut(s, "CSV and JSON have them all")
	}
	return v
}

// unlike makes the name of a table unlike those before it on the page, for those
// who go from table to table by name.
func (b *pageBuilder) unlike(name string) string {
	b.named[name]++
	if n := b.named[name]; n > 1 {
		return fmt.Sprintf("%s (%d)", name, n)
	}
	return name
}

// cut says how much of a table is shown, and where the rest is.
func (b *pageBuilder) cut(s sheet, where string) string {
	return visible(fmt.Sprintf("The first %s of %s rows; %s.", b.decimal(fmt.Sprint(b.maxRows)), b.decimal(fmt.Sprint(len(s.rows))), where))
}

// paperWidth is how many cells of text go across a page of A4, or of Letter, in
// a broad typeface.
const paperWidth = 84

// leaveOffPaper marks the columns that are too many for paper, by the rule that
// text follows, and returns their headings.
func (s sheet) leaveOffPaper() []string {
	stay, left, ok := s.fit(paperWidth)
	if !ok || len(stay) == len(s.columns) {
		return nil
	}
	for i := range s.columns {
		s.columns[i].offPaper = !slices.ContainsFunc(stay, func(p placed) bool { return p.index == i })
	}
	return left
}

// class is how the cells of a column are styled.
func (s sheet) class(i int) string {
	if s.columns[i].offPaper {
		return s.columns[i].class() + " spare"
	}
	return s.columns[i].class()
}

func (c sheetColumn) class() string {
	switch {
	case c.scale != nil:
		return "strip"
	case c.figures():
		return "number"
	case c.kind == KindDate:
		return "date"
	}
	return "words"
}

func (s sheet) cells(row []shown) []cellView {
	var cells []cellView
	for i, c := range s.columns {
		v := cellView{Text: row[i].text, Signs: row[i].signs, Class: s.class(i), Header: c.group}
		if c.scale != nil {
			v.Strip = c.scale.picture(row[i].span)
		}
		cells = append(cells, v)
	}
	return cells
}

// picture draws a span in a cell. It says nothing that the cells beside it don't,
// so it is kept from readers of the page aloud.
func (s scale) picture(sp span) template.HTML {
	const wide, middle, edge = 120.0, 10.0, 5.0
	d := drawing{out: &bytes.Buffer{}}
	x := func(v float64) float64 { return edge + (wide-2*edge)*s.at(v) }
	d.open("svg", "class", "plot", "aria-hidden", "true", "viewBox", "0 0 120 20", "preserveAspectRatio", "none")
	d.stroke(edge, middle, wide-edge, middle, "grid")
	if !math.IsNaN(s.reference) {
		d.stroke(x(s.reference), 2, x(s.reference), 18, "reference")
	}
	d.span(s, sp, x, middle)
	d.out.WriteString("</svg>")
	return template.HTML(d.out.String())
}
