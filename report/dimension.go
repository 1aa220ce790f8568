package report

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

// A dimension is something that attempts are grouped by, or picked by: of each
// batch it has one value, or none.
type dimension struct {
	name string
	of   func(*nursery.Nursery, *nursery.Batch) string
}

// dimensions are all there are, by the names of --by and of the filters.
var dimensions = []dimension{
	{"variety", func(_ *nursery.Nursery, b *nursery.Batch) string { return b.Top.String() }},
	{"stock", stockOf},
	{"mother", motherOf},
	{"wood", func(_ *nursery.Nursery, b *nursery.Batch) string { return labels(b.Wood) }},
	{"method", methodOf},
	{"worker", func(_ *nursery.Nursery, b *nursery.Batch) string { return b.Crew() }},
	{"place", placeOf},
	{"month", func(_ *nursery.Nursery, b *nursery.Batch) string { return b.Day.String()[:7] }},
	{"season", func(n *nursery.Nursery, b *nursery.Batch) string {
		return strconv.Itoa(fact.SeasonOf(b.Day, n.SeasonFrom()).Year())
	}},
	{"kind", func(_ *nursery.Nursery, b *nursery.Batch) string { return b.Kind.String() }},
	{"lot", func(_ *nursery.Nursery, b *nursery.Batch) string { return b.Lot.Name }},
	{"tag", tagOf},
	{"wood-age", woodAge},
	{"ordinal", ordinalOf},
}

// dimensionNames are the names of the dimensions in order.
func dimensionNames() []string {
	names := make([]string, len(dimensions))
	for i, d := range dimensions {
		names[i] = d.name
	}
	return names
}

func dimensionNamed(name string) dimension {
	i := slices.IndexFunc(dimensions, func(d dimension) bool { return d.name == name })
	if i < 0 {
		panic("report: no dimension " + name)
	}
	return dimensions[i]
}

func stockOf(_ *nursery.Nursery, b *nursery.Batch) string {
	if b.Kind != nursery.GraftBatch {
		return ""
	}
	return b.Stock.String()
}

// motherOf is the tree that the wood came from, however it came: by way of a
// bundle or straight. A set of mothers stays a set.
func motherOf(_ *nursery.Nursery, b *nursery.Batch) string {
	var mothers []string
	add := func(s nursery.Source) {
		if label := s.Label(); label != "" && !slices.Contains(mothers, label) {
			mothers = append(mothers, label)
		}
	}
	for _, s := range b.Wood {
		bundle, ok := s.Thing.(*nursery.Bundle)
		if !ok {
			add(s)
			continue
		}
		for _, from := range bundle.From {
			add(from)
		}
	}
	slices.Sort(mothers)
	return strings.Join(mothers, " + ")
}

func labels(sources []nursery.Source) string {
	if len(sources) == 1 {
		return sources[0].Label()
	}
	list := make([]string, len(sources))
	for i, s := range sources {
		list[i] = s.Label()
	}
	slices.Sort(list)
	return strings.Join(list, " + ")
}

func methodOf(_ *nursery.Nursery, b *nursery.Batch) string {
	switch {
	case b.Method != nil:
		return b.Method.Name
	case b.Kind == nursery.GraftBatch:
		return ""
	}
	return b.Kind.String()
}

func placeOf(_ *nursery.Nursery, b *nursery.Batch) string {
	switch {
	case b.Entry.At().Given():
		return b.Entry.At().Text
	case b.From != nil && b.From.Place != nil:
		return b.From.Place.Name
	case b.Lot.Place != nil:
		return b.Lot.Place.Name
	}
	return ""
}

func tagOf(_ *nursery.Nursery, b *nursery.Batch) string {
	tags := b.Entry.Tags()
	list := make([]string, len(tags))
	for i, t := range tags {
		list[i] = t.Text
	}
	slices.Sort(list)
	return strings.Join(list, " + ")
}

// woodAge is for how long the oldest wood of a graft had been cut, in the bands
// that matter to wood: the same day, some days, a week or more, a month or more.
func woodAge(_ *nursery.Nursery, b *nursery.Batch) string {
	if b.Kind != nursery.GraftBatch {
		return ""
	}
	oldest := fact.Date(0)
	for _, s := range b.Wood {
		if bundle, ok := s.Thing.(*nursery.Bundle); ok {
			oldest = max(oldest, b.Day-bundle.Day)
		}
	}
	switch {
	case oldest == 0:
		return "same day"
	case oldest < 7:
		return "1 to 6 days"
	case oldest < 28:
		return "1 to 4 weeks"
	}
	return "over 4 weeks"
}

func ordinalOf(_ *nursery.Nursery, b *nursery.Batch) string {
	if b.AtLeast {
		return fmt.Sprintf("%d or more", b.Ordinal)
	}
	return strconv.Itoa(b.Ordinal)
}

// chosen are the batches that a report is about: of the kind asked for, started
// in the period, attempts of the ordinal asked for, and let through by every
// filter. Filters of one name are alternatives.
func chosen(n *nursery.Nursery, o Options) []*nursery.Batch {
	period := o.Period()
	allowed := map[string][]string{}
	for _, f := range o.Filters {
		allowed[f.Name] = append(allowed[f.Name], f.Value)
	}
	var out []*nursery.Batch
	for _, b := range n.Batches {
		if b.Kind != o.Kind || !period.Contains(b.Day) || !o.Attempts.has(b.Ordinal) || !passes(n, b, allowed) {
			continue
		}
		out = append(out, b)
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

func passes(n *nursery.Nursery, b *nursery.Batch, allowed map[string][]string) bool {
	for name, values := range allowed {
		if !slices.Contains(values, dimensionNamed(name).of(n, b)) {
			return false
		}
	}
	return true
}

// A group is the batches that agree in some dimensions.
type group struct {
	values  []string
	batches []*nursery.Batch
}

// grouped puts batches into groups, in the order of their values; months and
// numbers run upwards.
func grouped(n *nursery.Nursery, batches []*nursery.Batch, by []string) []group {
	dims := make([]dimension, len(by))
	for i, name := range by {
		dims[i] = dimensionNamed(name)
	}
	index := map[string]int{}
	var groups []group
	for _, b := range batches {
		values := make([]string, len(dims))
		for i, d := range dims {
			values[i] = d.of(n, b)
		}
		key := strings.Join(values, "\x00")
		i, ok := index[key]
		if !ok {
			i = len(groups)
			index[key] = i
			groups = append(groups, group{values: values})
		}
		groups[i].batches = append(groups[i].batches, b)
	}
	slices.SortFunc(groups, func(a, b group) int { return slices.CompareFunc(a.values, b.values, naturally) })
	return groups
}

// naturally orders whole numbers by size and all else by letters.
func naturally(a, b string) int {
	x, errX := strconv.Atoi(a)
	y, errY := strconv.Atoi(b)
	if errX == nil && errY == nil {
		return cmp.Compare(x, y)
	}
	return cmp.Compare(a, b)
}

// groupColumns are the columns of the dimensions, and the cells of a group; a
// value that is not known is no text.
func groupColumns(by []string) []table.Column {
	cols := make([]table.Column, len(by))
	for i, name := range by {
		cols[i] = table.Column{Name: strings.ReplaceAll(name, "-", "_"), Heading: name, Kind: table.KindText, Group: true}
	}
	return cols
}

func (g group) cells() []table.Cell {
	cells := make([]table.Cell, len(g.values))
	for i, v := range g.values {
		if v != "" {
			cells[i] = table.Text(v)
		}
	}
	return cells
}
