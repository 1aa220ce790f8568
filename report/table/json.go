package table

import (
	"bytes"
	"io"
	"strconv"
	"strings"
)

// Version is the version of the JSON schema. Fields may be added under the same
// version; a field that changes its name or meaning would raise it.
const Version = 1

// WriteJSON writes the report as one object in UTF-8. Its fields, in this order:
//
//	version, report, title, as_at, period (name, from, to), basis ("cohort",
//	"calendar" or null), filters (name, value), cautions,
//	then every table and every fact of the body under its own name,
//	chapters (reports again, without version), notes, units
//
// A table is an array of objects with the names of the CSV columns as fields;
// its dimensions are in the object "group", its total in "<name>_total". Rates
// are fractions, money is a decimal string with its code in the field "currency"
// of the same object, dates are ISO strings, and unknown is null. Doubts about a
// row are in its "marks": the field's name, then the names of the marks; the
// field is absent where there are none. "units" says for each table what its
// numbers count.
func WriteJSON(w io.Writer, d Doc) error {
	if err := d.Check(); err != nil {
		return err
	}
	var b bytes.Buffer
	encode(&b, append(document{{"version", raw(strconv.Itoa(Version))}}, d.fields()...), "")
	b.WriteByte('\n')
	_, err := w.Write(b.Bytes())
	return err
}

func orNull(s string) any {
	if s == "" {
		return null
	}
	return s
}

func texts(lines []string) array {
	out := array{}
	for _, s := range lines {
		out = append(out, s)
	}
	return out
}

func (d Doc) fields() document {
	filters := array{}
	for _, f := range d.Filters {
		filters = append(filters, object{{"name", f.Name}, {"value", f.Value}})
	}
	o := document{
		{"report", d.Name},
		{"title", d.Title},
		{"as_at", orNull(d.AsAt)},
		{"period", object{{"name", orNull(d.Period.Name)}, {"from", orNull(d.Period.From)}, {"to", orNull(d.Period.To)}}},
		{"basis", orNull(d.Basis.String())},
		{"filters", filters},
		{"cautions", texts(d.Cautions)},
	}
	notes, units := d.Notes, object{}
	for _, b := range d.Body {
		switch b := b.(type) {
		case Table:
			o = append(o, b.fields()...)
			notes = append(notes[:len(notes):len(notes)], b.Notes...)
			units = append(units, b.units()...)
		case Facts:
			o = append(o, b.fields()...)
			units = append(units, b.units()...)
		}
	}
	if len(d.Chapters) > 0 {
		chapters := array{}
		for _, chapter := range d.Chapters {
			chapters = append(chapters, chapter.fields())
		}
		o = append(o, field{"chapters", chapters})
	}
	return append(o, field{"notes", texts(notes)}, field{"units", units})
}

func (t Table) fields() object {
	o := object{{t.Name, t.array()}}
	if t.Total != nil {
		o = append(o, field{t.Name + "_total", t.object(t.Total)})
	}
	return o
}

func (t Table) array() array {
	if t.Nest != "" {
		return t.nested()
	}
	rows := array{}
	for _, row := range t.Rows {
		rows = append(rows, t.object(row))
	}
	return rows
}

// object is one row: its group, then its other fields.
func (t Table) object(row []Cell) object {
	return append(t.group(row), t.rest(row)...)
}

// group is the one field "group", or nothing where the table has no dimensions.
func (t Table) group(row []Cell) object {
	group := object{}
	for i, c := range t.Columns {
		if c.Group && c.For != People {
			group = append(group, field{c.Name, row[i].json()})
		}
	}
	if len(group) == 0 && !t.Grouped {
		return nil
	}
	return object{{"group", group}}
}

// rest is the fields of a row that are no dimensions, with its currency and marks.
func (t Table) rest(row []Cell) object {
	o, marks := object{}, object{}
	for i, c := range t.Columns {
		if c.For == People {
			continue
		}
		if !c.Group {
			o = append(o, field{c.Name, row[i].json()})
		}
		if names := markNames(row[i].marks); len(names) > 0 {
			marks = append(marks, field{c.Name, names})
		}
	}
	if t.hasMoney() {
		o = append(o, field{"currency", orNull(strings.Join(currencies(row), ""))})
	}
	if len(marks) > 0 {
		o = append(o, field{"marks", marks})
	}
	return o
}

// nested puts neighbouring rows of one group into one object.
func (t Table) nested() array {
	rows := array{}
	for i := 0; i < len(t.Rows); {
		points := array{}
		first := i
		for ; i < len(t.Rows) && t.sameGroup(t.Rows[first], t.Rows[i]); i++ {
			points = append(points, t.rest(t.Rows[i]))
		}
		rows = append(rows, append(t.group(t.Rows[first]), field{t.Nest, points}))
	}
	return rows
}

func (t Table) sameGroup(a, b []Cell) bool {
	for i, c := range t.Columns {
		if c.Group && (a[i].kind != b[i].kind || a[i].Plain() != b[i].Plain()) {
			return false
		}
	}
	return true
}

func (t Table) units() object {
	units := object{}
	for _, c := range t.Columns {
		if c.Unit != "" && c.For != People {
			units = append(units, field{c.Name, c.Unit})
		}
	}
	if len(units) == 0 {
		return nil
	}
	return object{{t.Name, units}}
}

func (f Facts) fields() object {
	o, marks := object{}, object{}
	var cells []Cell
	for _, item := range f.Items {
		if item.For == People {
			continue
		}
		switch v := item.Value.(type) {
		case Cell:
			cells = append(cells, v)
			o = append(o, field{item.Name, v.json()})
			if names := markNames(v.marks); len(names) > 0 {
				marks = append(marks, field{item.Name, names})
			}
		case List:
			o = append(o, field{item.Name, values(v)})
		case Matrix:
			rows := array{}
			for _, r := range v.Rows {
				rows = append(rows, values(r))
			}
			o = append(o, field{item.Name, rows})
		}
	}
	if codes := currencies(cells); len(codes) > 0 {
		o = append(o, field{"currency", codes[0]})
	}
	if len(marks) > 0 {
		o = append(o, field{"marks", marks})
	}
	if f.Name == "" {
		return o
	}
	return object{{f.Name, o}}
}

func (f Facts) units() object {
	units := object{}
	for _, item := range f.Items {
		if item.Unit != "" && item.For != People {
			units = append(units, field{item.Name, item.Unit})
		}
	}
	if f.Name == "" || len(units) == 0 {
		return units
	}
	return object{{f.Name, units}}
}

func values(cells []Cell) array {
	out := array{}
	for _, c := range cells {
		out = append(out, c.json())
	}
	return out
}

func markNames(marks []Mark) array {
	var names array
	for _, m := range marks {
		names = append(names, m.Name)
	}
	return names
}

func (c Cell) json() any {
	plain := c.Plain()
	switch {
	case c.kind == KindText || c.kind == KindDate || c.kind == KindMoney:
		return plain
	case plain == "":
		return null
	}
	return raw(plain)
}
