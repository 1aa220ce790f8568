package nursery

import (
	"strconv"
	"strings"

	"github.com/budstick/budstick/grammar/fact"
)

// A row is names of which each counts on from the one before: R2/1 to R2/12.
type row struct {
	head  string
	width int // digits of the first number, at least
	first int // -1: there is no number, and the row is of one
	count int
}

// maxRow is the longest row that one entry plants.
const maxRow = 10_000

// rowOf is the names that a planting gives. Names that make no row are none.
func rowOf(f *fact.Plant) row {
	r := rowFrom(f.As.Text)
	switch {
	case !f.As.Given():
		return row{}
	case !f.Through.Given():
		r.count = 1
		return r
	}
	last := rowFrom(f.Through.Text)
	if r.first >= 0 && r.head == last.head && last.first >= r.first {
		r.count = last.first - r.first + 1
	}
	if r.count > maxRow {
		r.count = 0
	}
	return r
}

// rowFrom is a row that begins with a name, without its count.
func rowFrom(name string) row {
	head := strings.TrimRight(name, "0123456789")
	digits := name[len(head):]
	if number, err := strconv.Atoi(digits); err == nil && len(digits) < 10 {
		return row{head: head, width: len(digits), first: number}
	}
	return row{head: name, first: -1}
}

// name is the name at i in the row: at 3 after R2/08 is R2/11.
func (r row) name(i int) string {
	if r.first < 0 {
		return r.head
	}
	digits := strconv.Itoa(r.first + i)
	return r.head + strings.Repeat("0", max(0, r.width-len(digits))) + digits
}
