package table

import (
	"slices"
	"strings"
)

// A sheet is a table made ready for people: rounded, with its units in the
// headings and its doubts turned into footnotes. Text and HTML lay it out.
type sheet struct {
	columns   []sheetColumn
	rows      [][]shown
	total     []shown // nil when there is none
	footnotes footnotes
}

type sheetColumn struct {
	heading string
	kind    Kind
	scale   *scale // the cells are drawn on it; nil for words and figures
	spare   int
	group   bool

	offPaper bool // left out in print
}

// figures reports whether the cells are numbers, which stand against the right.
func (c sheetColumn) figures() bool {
	return c.kind != KindText && c.kind != KindDate && c.scale == nil
}

// shown is a cell made ready: words with the signs of its footnotes, or
// something to draw.
type shown struct {
	text  string
	signs string
	span  span
}

// footnotes are the marks met so far; each has a sign by its place.
type footnotes []Mark

// sign returns the signs of the marks, adding those that are new.
func (f *footnotes) sign(marks []Mark) string {
	var signs strings.Builder
	for _, m := range marks {
		i := slices.Index(*f, m)
		if i < 0 {
			i = len(*f)
			*f = append(*f, m)
		}
		signs.WriteString(footnoteSign(i))
	}
	return signs.String()
}

// footnoteSign returns the printer's signs in their usual order, doubled and
// trebled when they run out. Letters and figures would be read as part of the
// cell.
func footnoteSign(i int) string {
	signs := []string{"*", "†", "‡", "§", "¶"}
	return strings.Repeat(signs[i%len(signs)], i/len(signs)+1)
}

// sheet makes the columns that people see.
func (t Table) sheet(n numerals) sheet {
	s := sheet{rows: make([][]shown, len(t.Rows))}
	for i, c := range t.Columns {
		if c.For == Machines {
			continue
		}
		l := t.look(i)
		s.add(t, sheetColumn{heading: t.heading(i, l), kind: c.Kind, spare: c.Spare, group: c.Group},
			func(row []Cell) shown {
				return shown{text: n.write(row[i], l), signs: s.footnotes.sign(row[i].marks)}
			})
		if c.Low == "" {
			continue
		}
		low, high := t.column(c.Low), t.column(c.High)
		s.add(t, sheetColumn{heading: "interval", kind: c.Kind, spare: c.Spare},
			func(row []Cell) shown {
				marks := append(slices.Clone(row[low].marks), row[high].marks...)
				return shown{text: n.interval(row[low], row[high], l), signs: s.footnotes.sign(marks)}
			})
		if c.Kind == KindRate || c.Kind == KindChange {
			s.add(t, sheetColumn{scale: t.scale(i, low, high), spare: SpareDrawing},
				func(row []Cell) shown { return shown{span: spanOf(row[low], row[i], row[high])} })
		}
	}
	return s
}

// add fills one column, top to bottom.
func (s *sheet) add(t Table, c sheetColumn, show func(row []Cell) shown) {
	s.columns = append(s.columns, c)
	for i, row := range t.Rows {
		s.rows[i] = append(s.rows[i], show(row))
	}
	if t.Total != nil {
		s.total = append(s.total, show(t.Total))
	}
}

// look decides how the cells of column i are written.
func (t Table) look(i int) look {
	cells := make([]Cell, 0, len(t.Rows)+1)
	for _, row := range t.Rows {
		cells = append(cells, row[i])
	}
	if t.Total != nil {
		cells = append(cells, t.Total[i])
	}
	return lookOf(cells).withDecimals(t.Columns[i].Kind, t.Columns[i].Decimals)
}

// withDecimals asks for so many digits of plain numbers; zero asks for nothing.
func (l look) withDecimals(k Kind, decimals int) look {
	if k == KindNumber && decimals > 0 {
		l.digits = decimals
	}
	return l
}

// lookOf finds the one way to write cells of one kind so that they line up: as
// many digits as the longest needs, and no currency code where all are alike.
func lookOf(cells []Cell) look {
	l := look{digits: 2}
	longest := 0
	for _, c := range cells {
		if c.kind == KindMoney || c.kind == KindQuantity {
			longest = max(longest, scaleOf(c.text))
		}
	}
	codes := currencies(cells)
	l.code = len(codes) > 1
	for i, code := range codes {
		if d := moneyDigits(code, longest); i == 0 || d > l.digits {
			l.digits = d
		}
	}
	if slices.ContainsFunc(cells, func(c Cell) bool { return c.kind == KindQuantity }) {
		l.digits = longest
	}
	return l
}

// heading returns the words above column i, with the unit of what is below.
func (t Table) heading(i int, l look) string {
	c := t.Columns[i]
	unit := c.Unit
	switch c.Kind {
	case KindChange:
		unit = "points"
	case KindDays:
		unit = "days"
	case KindMoney:
		unit = ""
		for _, row := range slices.Concat(t.Rows, [][]Cell{t.Total}) {
			if row != nil && row[i].kind == KindMoney && !l.code {
				unit = row[i].currency
			}
		}
	}
	return titled(c.Heading, c.Name, unit)
}

// titled returns the heading, or the machine name in plain words, and the unit
// where the heading does not say it already.
func titled(heading, name, unit string) string {
	if heading == "" {
		heading = strings.ReplaceAll(name, "_", " ")
	}
	words := strings.Fields(heading)
	if unit != "" && !slices.Contains(words, unit) && !slices.Contains(words, strings.TrimSuffix(unit, "s")) {
		heading += " (" + unit + ")"
	}
	return visible(heading)
}

// interval writes the two ends of an interval, the unit once.
func (n numerals) interval(low, high Cell, l look) string {
	switch {
	case !low.Known() && !high.Known():
		return "–"
	case !low.Known():
		return "to " + n.write(high, l)
	case !high.Known():
		return "from " + n.write(low, l)
	}
	from := n.write(low, l)
	if low.kind == KindRate && high.kind == KindRate && n.percentBefore == "" {
		from = strings.TrimSuffix(from, n.percentPast)
	}
	if low.kind == KindChange || low.number < 0 || high.number < 0 {
		return from + " to " + n.write(high, l)
	}
	return from + "–" + n.write(high, l)
}
