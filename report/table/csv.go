package table

import (
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strings"
)

// WriteCSV writes one table as RFC 4180 has it: one header line, lines ending in
// CR LF, unknown values empty, numbers as plain unrounded decimals with a point,
// rates as fractions, dates in ISO form. The table is the one called name, or
// the first of the report when name is empty.
//
// A last column, marks, holds what is doubtful in the row, as
// "took=estimated;rate=few_data". A table with money has a column currency
// before it. A table of a published format has its headings instead of names,
// and neither of the two.
//
// Text that a spreadsheet could run as a formula, that is, text beginning with
// =, +, -, @ (also in their full width), a tab, CR or LF, whatever blanks stand
// before them, gets an apostrophe in front. So does text that begins with an
// apostrophe, and so a reader gets the exact text back by taking one away.
func WriteCSV(w io.Writer, d Doc, name string) error {
	if err := d.Check(); err != nil {
		return err
	}
	t, err := d.pick(name)
	if err != nil {
		return err
	}
	out := csv.NewWriter(w)
	out.UseCRLF = true
	money := t.hasMoney()
	if err := out.Write(t.header(money)); err != nil {
		return err
	}
	for _, row := range t.Rows {
		if err := out.Write(t.record(row, money)); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// pick finds the table to write.
func (d Doc) pick(name string) (Table, error) {
	tables := d.Tables()
	if len(tables) == 0 {
		return Table{}, fmt.Errorf("the report %q has no table; ask for JSON", d.Name)
	}
	if name == "" {
		return tables[0], nil
	}
	var names []string
	for _, t := range tables {
		if t.Name == name {
			return t, nil
		}
		names = append(names, t.Name)
	}
	return Table{}, fmt.Errorf("the report %q has no table %q; it has %s", d.Name, name, strings.Join(names, ", "))
}

// header names the columns for machines.
func (t Table) header(money bool) []string {
	var names []string
	for _, c := range t.Columns {
		switch {
		case c.For == People:
		case t.Published != "":
			names = append(names, c.Heading)
		default:
			names = append(names, c.Name)
		}
	}
	if t.Published != "" {
		return names
	}
	if money {
		names = append(names, "currency")
	}
	return append(names, "marks")
}

// record returns the fields of a row, as many as the header has.
func (t Table) record(row []Cell, money bool) []string {
	var fields, marks []string
	for i, c := range t.Columns {
		if c.For == People {
			continue
		}
		field := row[i].Plain()
		if row[i].kind == KindText {
			field = visible(guarded(field))
		}
		fields = append(fields, field)
		for _, m := range row[i].marks {
			marks = append(marks, c.Name+"="+m.Name)
		}
	}
	if t.Published != "" {
		return fields
	}
	if money {
		fields = append(fields, strings.Join(currencies(row), ""))
	}
	return append(fields, strings.Join(marks, ";"))
}

// guarded puts an apostrophe before text that may run as a formula.
func guarded(s string) string {
	first := strings.TrimLeft(s, " \u00a0")
	for _, start := range []string{"=", "+", "-", "@", "＝", "＋", "－", "＠", "\t", "\r", "\n", "'"} {
		if strings.HasPrefix(first, start) {
			return "'" + s
		}
	}
	return s
}

// hasMoney reports whether machines see a column of money.
func (t Table) hasMoney() bool {
	return slices.ContainsFunc(t.Columns, func(c Column) bool { return c.Kind == KindMoney && c.For != People })
}
