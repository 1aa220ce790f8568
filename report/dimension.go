package report

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
)

// A dimension is something that attempts are grouped by, or picked by: of each
// batch it has one value, or none.
type dimension struct {
	name string
	of   func(*nursery.Nursery, *nursery.Batch) string
	// mixed, if set, reports whether the value stands for several, of which the
	// record does not say whose each plant is.
	mixed func(*nursery.Batch) bool
	// order holds the values that are not in order by their spelling.
	order []string
	// running marks values that run on, such as months: they stay in their
	// order, and are no rivals to be ranked.
	running bool
}

// dimensions are all there are, by the names of --by and of the filters.
var dimensions = []dimension{
	{name: "variety", of: func(_ *nursery.Nursery, b *nursery.Batch) string { return b.Top.String() }},
	{name: "stock", of: stockOf, mixed: func(b *nursery.Batch) bool { return b.From != nil && b.From.MixedBelow }},
	{name: "mother", of: motherOf, mixed: func(b *nursery.Batch) bool { return len(mothersOf(b)) > 1 }},
	{name: "wood", of: func(_ *nursery.Nursery, b *nursery.Batch) string { return joined(labels(b.Wood)) },
		mixed: func(b *nursery.Batch) bool { return len(b.Wood) > 1 }},
	{name: "method", of: methodOf},
	{name: "worker", of: func(_ *nursery.Nursery, b *nursery.Batch) string { return b.Crew() }},
	{name: "place", of: placeOf},
	{name: "month", of: func(_ *nursery.Nursery, b *nursery.Batch) string { return b.Day.String()[:len("2026-03")] }, running: true},
	{name: "season", of: func(n *nursery.Nursery, b *nursery.Batch) string {
		return strconv.Itoa(fact.SeasonOf(b.Day, n.SeasonFrom()).Year())
	}, running: true},
	{name: "kind", of: func(_ *nursery.Nursery, b *nursery.Batch) string { return b.Kind.String() }},
	{name: "lot", of: func(_ *nursery.Nursery, b *nursery.Batch) string { return b.Lot.Name }},
	{name: "tag", of: tagOf},
	{name: "wood-age", of: woodAge, order: woodAges, running: true},
	{name: "ordinal", of: ordinalOf, running: true},
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

// motherOf is the tree that wood or seed came from, however it came: by way of
// a bundle or straight. A set of mothers stays a set.
func motherOf(_ *nursery.Nursery, b *nursery.Batch) string { return joined(mothersOf(b)) }

func mothersOf(b *nursery.Batch) []string {
	from := b.Wood
	if b.Kind == nursery.SeedBatch {
		from = b.Lot.Roots
	}
	var mothers []string
	for _, s := range from {
		if bundle, ok := s.Thing.(*nursery.Bundle); ok {
			mothers = append(mothers, motherNames(bundle.From)...)
		} else {
			mothers = append(mothers, motherName(s))
		}
	}
	slices.Sort(mothers)
	return slices.Compact(mothers)
}

// motherName is what a source of wood or seed goes by as a mother: a limb by the
// name of its tree, unless it is another variety, and a party not by its own.
func motherName(s nursery.Source) string {
	switch l, limb := s.Thing.(*nursery.Limb); {
	case limb && l.Variety == l.Tree.Variety:
		return l.Tree.Name
	case s.Party != nil:
		return "bought from " + s.Label()
	}
	return s.Label()
}

// motherNames are the names of some mothers, in order and each once.
func motherNames(sources []nursery.Source) []string {
	list := make([]string, len(sources))
	for i, s := range sources {
		list[i] = motherName(s)
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// labels are the names of sources, in order and each once.
func labels(sources []nursery.Source) []string {
	list := make([]string, len(sources))
	for i, s := range sources {
		list[i] = s.Label()
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// joined is the name of a set: that of its one member, or all of them.
func joined(names []string) string { return strings.Join(names, " + ") }

func methodOf(_ *nursery.Nursery, b *nursery.Batch) string {
	switch {
	case b.Method != nil:
		return b.Method.Name
	case b.Kind == nursery.GraftBatch:
		return ""
	}
	return b.Kind.String()
}

// placeOf is where the attempts were made: the place of the entry, else where
// the stocks, or the mother tree, stood on that day.
func placeOf(_ *nursery.Nursery, b *nursery.Batch) string {
	switch {
	case b.Entry.At().Given():
		return b.Entry.At().Text
	case b.From != nil:
		return placeName(b.From.SpotOn(b.Entry.Date).Place)
	case b.Lot.Mother != nil:
		return placeName(b.Lot.Mother.Place)
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
	return joined(list)
}

// woodAges are the bands that matter to wood: the same day, some days, a week
// or more, a month or more.
var woodAges = []string{"same day", "1 to 6 days", "1 to 4 weeks", "over 4 weeks"}

// woodAge is for how long the oldest wood of a graft or cutting had been cut.
func woodAge(_ *nursery.Nursery, b *nursery.Batch) string {
	if b.Kind != nursery.GraftBatch && b.Kind != nursery.CuttingBatch {
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
		return woodAges[0]
	case oldest < 7:
		return woodAges[1]
	case oldest < 28:
		return woodAges[2]
	}
	return woodAges[3]
}

func ordinalOf(_ *nursery.Nursery, b *nursery.Batch) string {
	if b.AtLeast {
		return fmt.Sprintf("%d or more", b.Ordinal)
	}
	return strconv.Itoa(b.Ordinal)
}
