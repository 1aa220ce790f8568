package report

import (
	"cmp"
	"iter"
	"strconv"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

// An Export is one tidy table of facts, for a database that many journals are
// poured into: one row a thing, one column a fact, and the farm's name in each
// row. Facts are exported, never figures that can be worked out from them. No column
// has a name that is a reserved word of standard SQL.
type Export struct {
	Name    string // of the table
	Summary string
	Key     []string // the columns that tell rows apart
	columns []exportColumn
	rows    func(n *nursery.Nursery, yield func([]table.Cell))
}

type exportColumn struct {
	name string
	kind table.Kind
	what string // for the documentation of the schema
}

// Rows are the rows of the table of a journal. They are made one by one, since
// all together take several times the room of the journal, and each is good
// until the next.
func (x *Export) Rows(n *nursery.Nursery) iter.Seq[[]table.Cell] {
	return func(yield func([]table.Cell) bool) {
		row := []table.Cell{table.Text(cmp.Or(farmName(n), "unnamed"))}
		wanted := true
		x.rows(n, func(cells []table.Cell) {
			if wanted {
				row = append(row[:1], cells...)
				wanted = yield(row)
			}
		})
	}
}

// Columns are those of the table, the farm's name first.
func (x *Export) Columns() []table.Column {
	cols := []table.Column{{Name: "farm", Kind: table.KindText}}
	for _, c := range x.columns {
		cols = append(cols, table.Column{Name: c.name, Kind: c.kind})
	}
	return cols
}

// Describe gives a column's meaning, for the documentation of the schema.
func (x *Export) Describe(column string) string {
	if column == "farm" {
		return "the farm's name; unnamed where none is declared"
	}
	for _, c := range x.columns {
		if c.name == column {
			return c.what
		}
	}
	return ""
}

func farmName(n *nursery.Nursery) string {
	if n.Farm == nil {
		return ""
	}
	return n.Farm.Name.Text
}

// entryID tells entries apart within a farm: the file and the line.
func entryID(e *fact.Entry) string { return e.File.Path + ":" + strconv.Itoa(int(e.Line)) }

// Exports lists the tables, those that others refer to first.
var Exports = []*Export{
	entriesExport, lotsExport, treesExport, attemptsExport, movesExport, salesExport, costsExport, wagesExport, descentExport,
}
