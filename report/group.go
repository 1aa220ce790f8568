package report

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/stat"
	"github.com/budstick/budstick/report/table"
)

// chosen are the batches that a report is about: of the kind asked for, started
// in the period, attempts of the ordinal asked for, and let through by every
// filter. Filters of one name are alternatives.
func chosen(n *nursery.Nursery, o Options) []*nursery.Batch {
	period := o.Period()
	var out []*nursery.Batch
	for _, b := range n.Batches {
		if b.Kind == o.Kind && period.Contains(b.Day) && o.Attempts.has(b.Ordinal) && passes(n, b, o.Filters) {
			out = append(out, b)
		}
	}
	return out
}

func (a Attempts) has(ordinal int) bool {
	switch a {
	case First:
		return ordinal == 1
	case Again:
		return ordinal > 1
	}
	return true
}

// mostNamed is how many values a message names.
const mostNamed = 8

// askable refuses a filter for a value that no attempt of the kind has, ever,
// and tells those that there are. It lets everything pass where there is no
// attempt at all.
func askable(n *nursery.Nursery, o Options) error {
	for _, f := range o.Filters {
		d := dimensionNamed(f.Name)
		var values []string
		known := false
		for _, b := range n.Batches {
			if b.Kind == o.Kind {
				value := d.of(n, b)
				known = known || sameName(value, f.Value)
				values = append(values, value)
			}
		}
		if known || len(values) == 0 {
			continue
		}
		slices.SortFunc(values, d.compare)
		values = slices.DeleteFunc(slices.Compact(values), func(s string) bool { return s == "" })
		there := "there is none with one"
		if more := len(values) - mostNamed; more > 0 {
			there = fmt.Sprintf("there are %s and %d more", strings.Join(values[:mostNamed], ", "), more)
		} else if len(values) > 0 {
			there = "there is " + strings.Join(values, ", ")
		}
		return fmt.Errorf("no %s has the %s %q; %s", o.Kind, f.Name, f.Value, there)
	}
	return nil
}

// A group is the batches that agree in some dimensions.
type group struct {
	by      []string // the names of the dimensions
	values  []string
	mixed   []bool // the value stands for several
	batches []*nursery.Batch
}

// name is what the group is called in a sentence: cleft by Ru.
func (g group) name() string {
	parts := make([]string, len(g.values))
	for i, v := range g.values {
		parts[i] = orUnnamed(v)
		if i > 0 {
			parts[i] = phrased(g.by[i], parts[i])
		}
	}
	return strings.Join(parts, " ")
}

// orUnnamed is a value in words, also where none was written.
func orUnnamed(value string) string {
	if value == "" {
		return "not written"
	}
	return value
}

// factorOf sorts batches by a dimension into levels, which are in order.
func factorOf(n *nursery.Nursery, batches []*nursery.Batch, d dimension) stat.Factor {
	f := stat.Factor{Name: d.name, At: make([]int, len(batches))}
	index := map[string]int{}
	for i, b := range batches {
		value := d.of(n, b)
		at, ok := index[value]
		if !ok {
			at = len(f.Levels)
			index[value] = at
			f.Levels = append(f.Levels, value)
		}
		f.At[i] = at
	}
	slices.SortFunc(f.Levels, d.compare)
	place := make([]int, len(f.Levels))
	for i, value := range f.Levels {
		place[index[value]] = i
	}
	for i, at := range f.At {
		f.At[i] = place[at]
	}
	return f
}

// grouped puts batches into groups, in the order of their values.
func grouped(n *nursery.Nursery, batches []*nursery.Batch, by []string) []group {
	dims := make([]dimension, len(by))
	factors := make([]stat.Factor, len(by))
	at := make([]int, len(batches)) // the batch's group
	groups := []group{{}}
	for i, name := range by {
		dims[i] = dimensionNamed(name)
		factors[i] = factorOf(n, batches, dims[i])
		groups = parted(groups, at, factors[i])
	}
	if len(batches) == 0 {
		return nil
	}
	for i, b := range batches {
		g := &groups[at[i]]
		g.batches = append(g.batches, b)
	}
	for i := range groups {
		groups[i].by = by
		groups[i].mixed = make([]bool, len(dims))
		for j, d := range dims {
			groups[i].mixed[j] = d.mixed != nil && slices.ContainsFunc(groups[i].batches, d.mixed)
		}
	}
	slices.SortFunc(groups, func(a, b group) int {
		for i, d := range dims {
			if c := d.compare(a.values[i], b.values[i]); c != 0 {
				return c
			}
		}
		return 0
	})
	return groups
}

// parted parts groups further by the levels of a factor; at says which group
// each batch is in, and is brought up to date.
func parted(groups []group, at []int, f stat.Factor) []group {
	type part struct{ group, level int }
	index := map[part]int{}
	var parts []group
	for i := range at {
		key := part{at[i], f.At[i]}
		to, ok := index[key]
		if !ok {
			to = len(parts)
			index[key] = to
			parts = append(parts, group{values: append(slices.Clone(groups[at[i]].values), f.Levels[f.At[i]])})
		}
		at[i] = to
	}
	return parts
}

// compare puts two values of the dimension in order; none comes last.
func (d dimension) compare(a, b string) int {
	switch {
	case a == b:
		return 0
	case a == "":
		return 1
	case b == "":
		return -1
	case d.order != nil:
		return cmp.Compare(slices.Index(d.order, a), slices.Index(d.order, b))
	}
	return naturally(a, b)
}

// naturally orders text by letters, but numbers in it by size: M7 before M12.
func naturally(a, b string) int {
	x, y := a, b
	for x != "" && y != "" {
		digitsX, digitsY := leadingDigits(x), leadingDigits(y)
		if digitsX > 0 && digitsY > 0 {
			i, errX := strconv.ParseUint(x[:digitsX], 10, 64)
			j, errY := strconv.ParseUint(y[:digitsY], 10, 64)
			if errX == nil && errY == nil && i != j {
				return cmp.Compare(i, j)
			}
			x, y = x[digitsX:], y[digitsY:]
			continue
		}
		if x[0] != y[0] {
			return cmp.Compare(x[0], y[0])
		}
		x, y = x[1:], y[1:]
	}
	return cmp.Or(cmp.Compare(len(x), len(y)), cmp.Compare(a, b))
}

func leadingDigits(s string) int {
	n := 0
	for n < len(s) && '0' <= s[n] && s[n] <= '9' {
		n++
	}
	return n
}

// groupColumns are the columns of the dimensions.
func groupColumns(by []string) []table.Column {
	cols := make([]table.Column, len(by))
	for i, name := range by {
		cols[i] = table.Column{Name: strings.ReplaceAll(name, "-", "_"), Heading: name, Kind: table.KindText, Group: true}
	}
	return cols
}

// cells are the cells of the dimensions; a value that is not known is no text.
func (g group) cells() []table.Cell {
	cells := make([]table.Cell, len(g.values))
	for i, v := range g.values {
		if v == "" {
			continue
		}
		cells[i] = table.Text(v)
		if g.mixed[i] {
			cells[i] = cells[i].With(table.Mixed)
		}
	}
	return cells
}
