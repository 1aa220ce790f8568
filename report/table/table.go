package table

// A Table is rows under typed columns.
type Table struct {
	Name  string // machine name: the name of its array in JSON, such as "rows"
	Title string // for people; may be empty when the report has one table

	Columns []Column
	// Rows hold one cell a column, in the order of the columns.
	Rows [][]Cell
	// Total is one more row of the same shape, or nil. In JSON it is an object
	// of its own, Name with "_total" added; CSV leaves it out, so that a reader
	// who adds up a column does not count everything twice.
	Total []Cell

	// Grouped gives every JSON row a "group" object even when no column is a
	// dimension, as in a report that was not split by anything.
	Grouped bool
	// Nest, if set, names an array: in JSON, neighbouring rows with the same
	// dimensions become one object that holds the group once and their other
	// columns as elements of that array. CSV stays flat.
	Nest string

	// Published names the format, where the columns are those of a published
	// one: CSV then has their headings for its header and no column of its own.
	Published string

	// Notes belong to this table and stand below it.
	Notes []string
}

// A Column says what the cells below it are.
type Column struct {
	Name    string // machine name, snake_case, the same in CSV and JSON
	Heading string // for people; empty means Name with blanks for underscores
	Kind    Kind
	// Unit is what the numbers count, such as "days" or "l". Money has none
	// here: its cells carry their currency.
	Unit string
	// Group marks a dimension that rows are grouped by. In JSON the dimensions
	// of a row are the fields of its "group".
	Group bool
	For   Audience

	// Low and High name the columns that hold the ends of this column's
	// interval. Writers for people then show the range beside the value, and
	// draw it where the value is a rate; the two columns themselves are best
	// left to Machines.
	Low, High string

	// Decimals is how many digits after the point people see of a KindNumber;
	// zero means two.
	Decimals int
	// Spare ranks what may be left out when the width is too small: zero is
	// always shown, and the greatest goes first. Drawings of intervals go with
	// SpareDrawing.
	Spare int
}

// SpareDrawing is how sparable the drawings of intervals are: columns that say
// less than a drawing rank higher.
const SpareDrawing = 4

// Audience is who sees a column or a fact.
type Audience int

const (
	Everyone Audience = iota
	Machines          // CSV and JSON only
	People            // text and HTML only
)

// Kind is the type of a cell or of a column. Its zero value is invalid.
type Kind int

const (
	_            Kind = iota
	KindText          // words
	KindCount         // a whole number of things
	KindDays          // a whole number of days
	KindRate          // a fraction of one, shown as per cent
	KindChange        // a difference of two rates, shown in signed points
	KindMoney         // a decimal with an ISO 4217 code
	KindDate          // an ISO date
	KindNumber        // any other measured or fitted number
	KindPValue        // a probability under a null hypothesis
	KindQuantity      // an exact decimal of the column's unit
)

// Add appends a row.
func (t *Table) Add(cells ...Cell) {
	t.Rows = append(t.Rows, cells)
}
