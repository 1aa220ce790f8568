package table

import (
	"slices"
	"strings"
)

const (
	columnGap  = 2
	wideStrip  = 21 // cells, so that the middle of the scale has one of its own
	thinStrip  = 11
	fairColumn = 12 // cells that short words get before a column is left out for them
	longColumn = 24 // the same for a long word
	poorColumn = 6  // cells that words get when nothing more can be left out
)

// A placed column is a sheet's column with its room on the line.
type placed struct {
	sheetColumn
	index            int // in the sheet
	width, least     int
	texts, signWidth int // of the widest cell, and of its footnote signs
	word             int // of the longest part that should not be broken
}

// sheet lays a table out, whatever the width takes.
func (t *textWriter) sheet(s sheet) {
	if len(s.rows) == 0 {
		t.line("(nothing to show)")
		return
	}
	columns, left, fits := s.fit(t.width)
	if fits {
		t.columns(s, columns)
	} else {
		t.records(s)
	}
	t.footnotes(s.footnotes)
	if fits && len(left) > 0 {
		t.paragraph("", "Left out to fit the width: "+strings.Join(left, ", ")+".", t.style.Dim)
	}
}

// fit gives every column its room. It returns the columns that stay, the names
// of those left out, and whether they fit at all.
func (s sheet) fit(limit int) (columns []placed, left []string, ok bool) {
	columns = s.measure()
	for hard := false; ; {
		if squeeze(columns, limit, hard) {
			return columns, left, true
		}
		sparest := slices.MaxFunc(columns, func(a, b placed) int { return a.spare - b.spare }).spare
		switch {
		case sparest > 0:
			columns = slices.DeleteFunc(columns, func(c placed) bool {
				if c.spare == sparest && c.scale == nil {
					left = append(left, c.heading)
				}
				return c.spare == sparest
			})
		case !hard:
			hard = true
		default:
			return nil, nil, false
		}
		if len(columns) == 0 {
			return nil, nil, false
		}
	}
}

// measure finds the widest cell of every column.
func (s sheet) measure() []placed {
	var columns []placed
	for i, c := range s.columns {
		p := placed{sheetColumn: c, index: i}
		for _, row := range s.all() {
			p.texts = max(p.texts, width(row[i].text))
			p.signWidth = max(p.signWidth, width(row[i].signs))
			p.word = max(p.word, longestWord(row[i].text+row[i].signs))
		}
		columns = append(columns, p)
	}
	return columns
}

// all returns the rows and, if there is one, the total.
func (s sheet) all() [][]shown {
	if s.total == nil {
		return s.rows
	}
	return append(slices.Clone(s.rows), s.total)
}

// squeeze tries to fit the columns: first with headings on one line, then with
// wrapped ones, then by taking room from words and strips, the widest first.
func squeeze(columns []placed, limit int, hard bool) bool {
	for i := range columns {
		columns[i].width = columns[i].wide(width(columns[i].heading))
	}
	if excess(columns, limit) <= 0 {
		return true
	}
	for i := range columns {
		c := &columns[i]
		c.width = c.wide(longestWord(c.heading))
		c.least = c.narrow(hard)
	}
	for excess(columns, limit) > 0 {
		widest := -1
		for i, c := range columns {
			if c.width > c.least && (widest < 0 || c.width > columns[widest].width) {
				widest = i
			}
		}
		if widest < 0 {
			return false
		}
		columns[widest].width--
	}
	return true
}

// wide returns the room a column takes when it need not wrap its cells.
func (c placed) wide(heading int) int {
	if c.scale != nil {
		return wideStrip
	}
	return max(c.texts+c.signWidth, heading)
}

// narrow returns the least room of a column.
func (c placed) narrow(hard bool) int {
	switch {
	case c.scale != nil:
		return thinStrip
	case c.kind != KindText:
		return c.width
	case hard:
		return min(c.width, poorColumn)
	}
	return min(c.width, max(fairColumn, min(c.word, longColumn), longestWord(c.heading)))
}

// excess returns by how much the columns are too wide together.
func excess(columns []placed, limit int) int {
	total := columnGap * (len(columns) - 1)
	for _, c := range columns {
		total += c.width
	}
	return total - limit
}

// columns writes the heading, the rows and the total.
func (t *textWriter) columns(s sheet, columns []placed) {
	headings := make([][]string, len(columns))
	for i, c := range columns {
		if c.scale != nil {
			headings[i] = []string{t.stripHeading(*c.scale, c.width)}
		} else {
			headings[i] = wrap(c.heading, c.width)
		}
	}
	rule := -columnGap
	for _, c := range columns {
		rule += columnGap + c.width
	}
	t.tiers(columns, headings, true, t.style.Strong)
	t.line(styled(t.style.Dim, strings.Repeat("─", rule)))
	for _, row := range s.rows {
		t.tiers(columns, t.lay(columns, row), false, nil)
	}
	if s.total != nil {
		t.line(styled(t.style.Dim, strings.Repeat("─", rule)))
		t.tiers(columns, t.lay(columns, s.total), false, t.style.Strong)
	}
}

// lay breaks the cells of a row into lines.
func (t *textWriter) lay(columns []placed, row []shown) [][]string {
	cells := make([][]string, len(columns))
	for i, c := range columns {
		cell := row[c.index]
		switch {
		case c.scale != nil:
			cells[i] = []string{c.scale.strip(cell.span, c.width, intervalStrokes)}
		case c.figures():
			cells[i] = []string{cell.text + pad(cell.signs, c.signWidth, false)}
		default:
			cells[i] = wrap(cell.text+cell.signs, c.width)
		}
	}
	return cells
}

// tiers writes cells of several lines beside one another: headings stand on
// the bottom line, cells hang from the top one.
func (t *textWriter) tiers(columns []placed, cells [][]string, bottom bool, style func(string) string) {
	height := 0
	for _, lines := range cells {
		height = max(height, len(lines))
	}
	for tier := range height {
		var line strings.Builder
		blanks := 0
		for i, c := range columns {
			at := tier
			if bottom {
				at -= height - len(cells[i])
			}
			text := ""
			if at >= 0 && at < len(cells[i]) {
				text = cells[i][at]
			}
			if c.figures() {
				text = pad(text, c.width, true)
			}
			trimmed := strings.TrimRight(text, " ")
			if trimmed != "" {
				line.WriteString(strings.Repeat(" ", blanks) + styled(style, trimmed))
				blanks = 0
			}
			blanks += c.width - width(trimmed) + columnGap
		}
		t.line(line.String())
	}
}

// records writes each row as a list of its cells: the way out when columns
// can't fit.
func (t *textWriter) records(s sheet) {
	for i, row := range s.all() {
		if i > 0 {
			t.line(styled(t.style.Dim, strings.Repeat("┄", min(t.width, wideStrip))))
		}
		if s.total != nil && i == len(s.rows) {
			t.line(styled(t.style.Strong, "total"))
		}
		for j, c := range s.columns {
			if c.scale == nil {
				t.hanging(c.heading+": ", row[j].text+row[j].signs)
			}
		}
	}
}

// hanging writes a name and a text, whose further lines are set in a little.
func (t *textWriter) hanging(name, text string) {
	for i, line := range wrap(name+text, t.width-columnGap) {
		if i > 0 {
			line = strings.Repeat(" ", columnGap) + line
		}
		t.line(line)
	}
}

// matrix writes a square in as many slabs of columns as the width needs.
func (t *textWriter) matrix(m Matrix, decimals int) {
	slab := len(m.Names)
	for slab > 1 {
		if _, _, ok := m.sheet(t.numerals, decimals, 0, slab).fit(t.width); ok {
			break
		}
		slab--
	}
	for from := 0; from < len(m.Names); from += max(slab, 1) {
		if from > 0 {
			t.gap()
		}
		t.sheet(m.sheet(t.numerals, decimals, from, min(from+slab, len(m.Names))))
	}
}

// sheet makes a table of the columns from one to before another, with the names
// down the side.
func (m Matrix) sheet(n numerals, decimals, from, to int) sheet {
	s := sheet{columns: []sheetColumn{{kind: KindText, group: true}}, rows: make([][]shown, len(m.Names))}
	for _, name := range m.Names[from:to] {
		s.columns = append(s.columns, sheetColumn{heading: visible(name), kind: KindNumber})
	}
	if decimals == 0 {
		decimals = matrixDecimals
	}
	l := lookOf(slices.Concat(m.Rows...)).withDecimals(KindNumber, decimals)
	for i, row := range m.Rows {
		s.rows[i] = append(s.rows[i], shown{text: visible(m.Names[i])})
		for _, c := range row[from:to] {
			s.rows[i] = append(s.rows[i], shown{text: n.write(c, l)})
		}
	}
	return s
}

// matrixDecimals suits kinship, which goes by halves of halves: 0.031 is a
// thirty-second.
const matrixDecimals = 3
