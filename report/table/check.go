package table

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"

	"github.com/budstick/budstick/grammar/fact"
)

var (
	machineName  = regexp.MustCompile(`^[a-z][a-z0-9_]*$`)
	plainDecimal = regexp.MustCompile(`^-?(0|[1-9][0-9]*)(\.[0-9]+)?$`)
)

// The fields of a report and of a row that the writers fill in themselves.
var (
	reportFields = []string{"version", "report", "title", "as_at", "period", "basis", "filters",
		"cautions", "notes", "units", "chapters", "currency", "marks"}
	rowFields = []string{"group", "marks", "currency"}
)

// Check reports whatever in the document breaks the promises of its types: rows
// of the wrong length, cells of the wrong kind, names that clash, bad dates or
// decimals. Every writer checks first and writes nothing when Check fails, so
// an error here is a fault of the report and not of the journal.
func (d Doc) Check() error {
	c := checker{where: "report " + d.Name, notes: map[string]string{}}
	c.doc(d)
	return errors.Join(c.faults...)
}

// A checker collects faults, each with the place it was found at.
type checker struct {
	where  string
	notes  map[string]string // of the marks seen, by name
	faults []error
}

func (c *checker) fault(format string, args ...any) {
	c.faults = append(c.faults, fmt.Errorf(c.where+": "+format, args...))
}

// in runs check with the place named.
func (c *checker) in(place string, check func()) {
	outer := c.where
	c.where += ", " + place
	check()
	c.where = outer
}

func (c *checker) name(kind, name string) {
	if !machineName.MatchString(name) {
		c.fault("%s %q is not a name in small letters and underscores", kind, name)
	}
}

// date checks a date that may be left empty.
func (c *checker) date(kind, iso string) {
	if iso == "" {
		return
	}
	if _, err := time.Parse(time.DateOnly, iso); err != nil {
		c.fault("%s %q is not an ISO date", kind, iso)
	}
}

func (c *checker) doc(d Doc) {
	c.name("report", d.Name)
	c.date("as-at", d.AsAt)
	c.date("from", d.Period.From)
	c.date("to", d.Period.To)
	taken := slices.Clone(reportFields)
	take := func(name string) {
		if slices.Contains(taken, name) {
			c.fault("two fields are called %q", name)
		}
		taken = append(taken, name)
	}
	for i, b := range d.Body {
		switch b := b.(type) {
		case Table:
			take(b.Name)
			take(b.Name + "_total")
			c.in("table "+b.Name, func() { c.table(b) })
		case Facts:
			take(b.Name) // also "": two nameless lists would write one field twice
			for _, f := range b.Items {
				if b.Name == "" {
					take(f.Name)
				}
			}
			if b.Name != "" {
				c.name("facts", b.Name)
			}
			c.in("facts "+b.Name, func() { c.facts(b) })
		case Plot:
			c.in(fmt.Sprintf("block %d", i+1), func() { c.plot(b) })
		}
	}
	for _, chapter := range d.Chapters {
		c.in("chapter "+chapter.Name, func() { c.doc(chapter) })
	}
}

func (c *checker) table(t Table) {
	c.name("table", t.Name)
	names := slices.Clone(rowFields)
	for _, col := range t.Columns {
		c.name("column", col.Name)
		if slices.Contains(names, col.Name) {
			c.fault("two columns are called %q", col.Name)
		}
		names = append(names, col.Name)
		if col.Kind < KindText || col.Kind > KindQuantity {
			c.fault("column %q has no kind", col.Name)
		}
		for _, end := range []string{col.Low, col.High} {
			if end != "" && t.column(end) < 0 {
				c.fault("column %q has its interval in %q, which is not a column", col.Name, end)
			}
		}
		if (col.Low == "") != (col.High == "") {
			c.fault("column %q has half an interval", col.Name)
		}
	}
	if !slices.ContainsFunc(t.Columns, func(c Column) bool { return c.For != People }) {
		c.fault("has no column for machines")
	}
	if t.Published != "" && (t.hasMoney() || slices.ContainsFunc(t.Columns, func(c Column) bool { return c.Heading == "" })) {
		c.fault("a published format has no money here, and a heading for every column")
	}
	if t.Nest != "" {
		c.name("nest", t.Nest)
	}
	for i, row := range t.Rows {
		c.in(fmt.Sprintf("row %d", i+1), func() { c.row(t, row) })
	}
	if t.Total != nil {
		c.in("total", func() { c.row(t, t.Total) })
	}
}

func (c *checker) row(t Table, row []Cell) {
	if len(row) != len(t.Columns) {
		c.fault("%d cells under %d columns", len(row), len(t.Columns))
		return
	}
	for i, cell := range row {
		if cell.Known() && cell.kind != t.Columns[i].Kind {
			c.fault("cell of another kind under %q", t.Columns[i].Name)
		}
		c.in(t.Columns[i].Name, func() { c.cell(cell) })
	}
	c.oneCurrency(row)
}

// oneCurrency makes sure that one field can name the currency of all the cells.
func (c *checker) oneCurrency(cells []Cell) {
	codes := currencies(cells)
	if len(codes) > 1 {
		c.fault("money of several currencies (%s) side by side", strings.Join(codes, ", "))
	}
}

func (c *checker) cell(cell Cell) {
	switch cell.kind {
	case KindMoney:
		if _, ok := fact.MinorUnit(cell.currency); !ok {
			c.fault("%q is not a currency of ISO 4217", cell.currency)
		}
		fallthrough
	case KindQuantity:
		if !plainDecimal.MatchString(cell.text) {
			c.fault("%q is not a plain decimal", cell.text)
		}
	case KindDate:
		if cell.text == "" {
			c.fault("an empty date is not an unknown one")
		}
		c.date("cell", cell.text)
	}
	for _, m := range cell.marks {
		c.name("mark", m.Name)
		if note, seen := c.notes[m.Name]; seen && note != m.Note {
			c.fault("mark %q has two notes", m.Name)
		}
		c.notes[m.Name] = m.Note
	}
}

func (c *checker) facts(f Facts) {
	var names []string
	var direct []Cell
	for _, item := range f.Items {
		c.name("fact", item.Name)
		if slices.Contains(names, item.Name) || slices.Contains(rowFields, item.Name) {
			c.fault("two facts are called %q", item.Name)
		}
		names = append(names, item.Name)
		c.in(item.Name, func() {
			switch v := item.Value.(type) {
			case Cell:
				direct = append(direct, v)
				c.cell(v)
			case List:
				c.cells(v)
			case Matrix:
				c.matrix(v)
			default:
				c.fault("has no value")
			}
		})
	}
	c.oneCurrency(direct)
}

// cells checks values that have no field beside them for a currency or marks.
func (c *checker) cells(cells []Cell) {
	for _, cell := range cells {
		c.cell(cell)
		if cell.kind == KindMoney || len(cell.marks) > 0 {
			c.fault("money and marks belong in a table, not in a list or matrix")
		}
	}
}

func (c *checker) matrix(m Matrix) {
	if len(m.Rows) != len(m.Names) {
		c.fault("%d rows for %d names", len(m.Rows), len(m.Names))
	}
	for _, row := range m.Rows {
		if len(row) != len(m.Names) {
			c.fault("row of %d for %d names", len(row), len(m.Names))
		}
		c.cells(row)
	}
}

// column returns the index of the column with that machine name, or -1.
func (t Table) column(name string) int {
	return slices.IndexFunc(t.Columns, func(c Column) bool { return c.Name == name })
}

// currencies returns the codes of the money among the cells, each once.
func currencies(cells []Cell) []string {
	var codes []string
	for _, c := range cells {
		if c.kind == KindMoney && !slices.Contains(codes, c.currency) {
			codes = append(codes, c.currency)
		}
	}
	return codes
}
