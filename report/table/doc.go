// Package table holds the value of a report and the one set of writers that
// turn such a value into text, CSV, JSON, HTML and SVG.
//
// A report builds a [Doc]: a title, what was counted and until when, and a body
// of blocks in reading order (tables, facts, plots, outlines). It fills in typed
// cells and never formats anything. The writers do the rest:
//
//	WriteText   for a terminal of a given width
//	WriteCSV    one table, for spreadsheets
//	WriteJSON   the whole report, for programs
//	WriteHTML   one self-contained page
//	WriteSVG    one plot, standing alone
//	WriteDOT    one graph, for programs that draw graphs
//
// Numbers reach programs unrounded. They are rounded for people once, here.
// The package reckons nothing: money is a decimal string that it only prints.
package table

import "slices"

// A Doc is one report.
type Doc struct {
	Name  string // machine name, snake_case, such as "take"
	Title string // for people

	// AsAt is the last day that the report knows of, as an ISO date.
	AsAt string
	// Period is the stretch of time counted; its zero value means all of it.
	Period Period
	// Basis says whether the period chooses what was started or what happened.
	Basis Basis
	// Filters are what the grower asked to be left in, in the order asked.
	Filters []Filter

	// Cautions come before the body: what may hurt someone or mislead the reader.
	Cautions []string
	// Body holds the blocks in reading order.
	Body []Block
	// Chapters are whole reports bound into this one, as in a season's book.
	Chapters []Doc
	// Bound says that the chapters are left to pages and programs: text is the
	// report without them.
	Bound bool
	// Notes come last: how the figures were reckoned.
	Notes []string
}

// A Period is a stretch of days, both ends counted. Dates are ISO; an empty end
// is open.
type Period struct {
	Name     string // such as "season 2026"; may be empty
	From, To string
}

// Basis says what a period chooses.
type Basis int

const (
	// NoBasis is for reports that the question does not touch, such as kinship.
	NoBasis Basis = iota
	// Cohort follows what was started in the period, wherever it is now.
	Cohort
	// Calendar counts what happened in the period.
	Calendar
)

// String returns the name used in machine output, "" for [NoBasis].
func (b Basis) String() string {
	switch b {
	case Cohort:
		return "cohort"
	case Calendar:
		return "calendar"
	}
	return ""
}

// A Filter is one restriction: only rows whose Name is Value were counted.
type Filter struct{ Name, Value string }

// A Block is one piece of a report's body: a [Table], [Facts], an [Outline] or
// a [Plot].
type Block interface{ block() }

// unseen reports whether people are shown nothing of a block: all its columns,
// or all its facts, are for machines.
func unseen(b Block) bool {
	switch b := b.(type) {
	case Table:
		return !slices.ContainsFunc(b.Columns, func(c Column) bool { return c.For != Machines })
	case Facts:
		return !slices.ContainsFunc(b.Items, func(f Fact) bool { return f.For != Machines })
	}
	return false
}

// Tables returns the tables of the body in order, without those of chapters.
func (d Doc) Tables() []Table {
	var tables []Table
	for _, b := range d.Body {
		if t, ok := b.(Table); ok {
			tables = append(tables, t)
		}
	}
	return tables
}

// Facts is a list of named single values. In JSON its items are fields of an
// object called Name, or of the report itself when Name is empty.
type Facts struct {
	Name  string // snake_case, or empty
	Title string // for people; may be empty
	Items []Fact
}

// A Fact is one named value beside the tables.
type Fact struct {
	Name    string // snake_case
	Heading string // for people; empty means Name with blanks for underscores
	Unit    string // such as "days"; empty for none and for money
	For     Audience
	// Decimals is as in a [Column]; in a matrix zero means three.
	Decimals int
	Value    Value
}

// A Value is what a fact may hold: a [Cell], a [List] or a [Matrix].
type Value interface{ value() }

// A List is an ordered list of cells of one kind.
type List []Cell

// A Matrix is a square of cells with the same names along both sides. In JSON
// it is an array of rows; the names are not part of it, so give them as a
// [List] of their own.
type Matrix struct {
	Names []string
	Rows  [][]Cell
}

// An Outline is an indented drawing of things that hang from one another. It is
// for people only; give its nodes and edges as tables too.
type Outline struct {
	Title string
	Roots []Branch
}

// A Branch is one line of an outline with what hangs from it.
type Branch struct {
	Label    string
	Detail   string // said after the label, less loudly; may be empty
	Marks    []Mark
	Branches []Branch
}

func (Table) block()   {}
func (Facts) block()   {}
func (Outline) block() {}

func (Cell) value()   {}
func (List) value()   {}
func (Matrix) value() {}
