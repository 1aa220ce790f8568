package table

import (
	"math"
	"slices"
	"strconv"
)

// A Cell is one typed value with its marks. The zero Cell is unknown.
type Cell struct {
	kind     Kind   // zero when unknown
	text     string // of KindText, KindDate, and the decimal of KindMoney and KindQuantity
	currency string
	number   float64 // of KindRate, KindChange, KindNumber, KindPValue
	count    int64   // of KindCount, KindDays
	marks    []Mark
}

// A Mark is a doubt about one cell. People see it as a footnote; programs find
// its name in the "marks" of the row. The same Name must always come with the
// same Note.
type Mark struct {
	Name string // snake_case
	Note string // a phrase for a footnote
}

// The marks that every report may use.
var (
	Estimated   = Mark{"estimated", "about: estimated, not counted"}
	Provisional = Mark{"provisional", "provisional: some of these were looked at early and not again, or may still come up"}
	Mixed       = Mark{"mixed", "mixed: comes from more than one, and the record does not say which"}
	FewData     = Mark{"few_data", "few data: too few to judge by"}
	Unbounded   = Mark{"unbounded", "no limit can be given from these data"}
)

// Unknown is the cell of a value that nobody recorded or that has no meaning
// here: null in JSON, empty in CSV, a dash for people.
func Unknown() Cell { return Cell{} }

// Text is a cell of words. Control characters in it are made visible by the
// writers, so any text from a journal may be given.
func Text(s string) Cell { return Cell{kind: KindText, text: s} }

// Count is a whole number of things.
func Count[I ~int | ~int32 | ~int64](n I) Cell { return Cell{kind: KindCount, count: int64(n)} }

// Days is a whole number of days.
func Days[I ~int | ~int32 | ~int64](n I) Cell { return Cell{kind: KindDays, count: int64(n)} }

// Rate is a fraction of one: 0.75 for 75 %.
func Rate(fraction float64) Cell { return measured(KindRate, fraction) }

// Change is a difference of two rates, as a fraction: -0.1 for ten points less.
func Change(fraction float64) Cell { return measured(KindChange, fraction) }

// Number is a number that is none of the other kinds, such as an odds ratio.
func Number(x float64) Cell { return measured(KindNumber, x) }

// PValue is a probability under a null hypothesis.
func PValue(p float64) Cell { return measured(KindPValue, p) }

// Money is an exact decimal such as "-12.50" in the currency of an ISO 4217
// code such as "EUR". [Doc.Check] refuses anything else.
func Money(decimal, currency string) Cell {
	return Cell{kind: KindMoney, text: decimal, currency: currency}
}

// Quantity is an exact decimal such as "2.5" of the unit that its column names.
func Quantity(decimal string) Cell { return Cell{kind: KindQuantity, text: decimal} }

// Date is a day, written as an ISO date.
func Date(iso string) Cell { return Cell{kind: KindDate, text: iso} }

// measured makes a cell of a measured number. NaN is unknown; an infinite number is
// kept for people, who see its sign, and marked Unbounded for programs, which
// see null.
func measured(k Kind, x float64) Cell {
	switch {
	case math.IsNaN(x):
		return Cell{}
	case math.IsInf(x, 0):
		return Cell{kind: k, number: x}.With(Unbounded)
	}
	return Cell{kind: k, number: x + 0} // + 0 turns a negative zero into zero
}

// With returns the cell with marks added, each once.
func (c Cell) With(marks ...Mark) Cell {
	c.marks = slices.Clone(c.marks)
	for _, m := range marks {
		if !slices.Contains(c.marks, m) {
			c.marks = append(c.marks, m)
		}
	}
	return c
}

// Kind returns the kind of the cell, zero when it is unknown.
func (c Cell) Kind() Kind { return c.kind }

// Known reports whether the cell holds a value.
func (c Cell) Known() bool { return c.kind != 0 }

// Marks returns the marks of the cell.
func (c Cell) Marks() []Mark { return slices.Clone(c.marks) }

// Plain returns the unrounded value as CSV has it, before any quoting or
// guarding: a plain decimal, an ISO date, the text itself, or "" for unknown.
func (c Cell) Plain() string {
	switch c.kind {
	case KindText, KindMoney, KindDate, KindQuantity:
		return c.text
	case KindCount, KindDays:
		return strconv.FormatInt(c.count, 10)
	case KindRate, KindChange, KindNumber, KindPValue:
		if math.IsInf(c.number, 0) {
			return ""
		}
		return strconv.FormatFloat(c.number, 'f', -1, 64)
	}
	return ""
}
