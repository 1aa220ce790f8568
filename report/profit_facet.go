package report

import (
	"fmt"
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/cost"
	"github.com/budstick/budstick/report/table"
)

// A facet is something that money is parted by: of what is sold, paid for or
// stands it has one value, or none.
type facet struct {
	name string
	of   func(*nursery.Nursery, *cost.Flow) string
	// running marks values that run on and are no rivals.
	running bool
	// passing marks what only belongs to a sale and not to what stands.
	passing bool
}

// facets are those of --by; the filters know worker and tag besides.
var facets = []facet{
	{name: "lot", of: func(_ *nursery.Nursery, f *cost.Flow) string { return labelOf(f.Thing) }},
	{name: "variety", of: varietyOfFlow},
	{name: "method", of: ofAttempts(methodOf)},
	{name: "mother", of: motherOfFlow},
	{name: "stock", of: stockOfFlow},
	{name: "customer", of: customerOf, passing: true},
	{name: "place", of: placeOfFlow},
	{name: "month", of: func(_ *nursery.Nursery, f *cost.Flow) string { return f.Day.String()[:len("2026-03")] }, running: true, passing: true},
	{name: "worker", of: ofAttempts(func(_ *nursery.Nursery, b *nursery.Batch) string { return b.Crew() })},
	{name: "tag", of: ofAttempts(tagOf)},
}

// profitBy are the facets that rows can be parted by; the first is the default.
var profitBy = []string{"variety", "lot", "method", "mother", "stock", "customer", "place", "month"}

func facetNamed(name string) facet {
	return facets[slices.IndexFunc(facets, func(f facet) bool { return f.name == name })]
}

func labelOf(t nursery.Thing) string {
	if t == nil {
		return ""
	}
	return t.Label()
}

func varietyOfFlow(_ *nursery.Nursery, f *cost.Flow) string {
	switch t := f.Thing.(type) {
	case *nursery.Lot:
		return calledInState(t, f.State)
	case *nursery.Tree:
		return t.Identity().String()
	case *nursery.Limb:
		return nursery.Identity{Variety: t.Variety}.String()
	case *nursery.Bundle:
		return nursery.Identity{Variety: t.Variety}.String()
	}
	return ""
}

func stockOfFlow(_ *nursery.Nursery, f *cost.Flow) string {
	switch t := f.Thing.(type) {
	case *nursery.Lot:
		if below := belowInState(t, f.State); len(below) > 0 {
			return below[len(below)-1].String()
		}
	case *nursery.Tree:
		if len(t.On) > 0 {
			return t.On[len(t.On)-1].String()
		}
	}
	return ""
}

// motherOfFlow is where the tops came from; fruit and wood are of their tree.
func motherOfFlow(n *nursery.Nursery, f *cost.Flow) string {
	if f.Enterprise == cost.Trees {
		return ofAttempts(motherOf)(n, f)
	}
	switch t := f.Thing.(type) {
	case *nursery.Bundle:
		return joined(motherNames(t.From))
	case *nursery.Limb:
		return motherName(nursery.Source{Thing: t})
	}
	return labelOf(f.Thing)
}

func customerOf(n *nursery.Nursery, f *cost.Flow) string {
	if f.Entry == nil {
		return ""
	}
	name := ""
	switch m := f.Entry.Effect.(type) {
	case *fact.Leave:
		name = m.To.Text
	case *fact.Return:
		name = m.From.Text
	case *fact.Paid:
		name = m.From.Text
	}
	if p, ok := n.Party(name); ok && f.Kind != cost.Lost && f.Kind != cost.Spent {
		return p.Name
	}
	return ""
}

func placeOfFlow(_ *nursery.Nursery, f *cost.Flow) string {
	switch t := f.Thing.(type) {
	case *nursery.Lot:
		return placeName(t.SpotOn(f.Day).Place)
	case *nursery.Tree:
		return placeName(t.Place)
	case *nursery.Limb:
		return placeName(t.Tree.Place)
	}
	return ""
}

// ofAttempts is what the attempts have in common that the plants are part of,
// or all that they have, joined.
func ofAttempts(of func(*nursery.Nursery, *nursery.Batch) string) func(*nursery.Nursery, *cost.Flow) string {
	return func(n *nursery.Nursery, f *cost.Flow) string {
		var values []string
		for _, b := range attemptsOf(f.Thing) {
			if v := of(n, b); v != "" {
				values = append(values, v)
			}
		}
		slices.Sort(values)
		return joined(slices.Compact(values))
	}
}

func attemptsOf(t nursery.Thing) []*nursery.Batch {
	switch t := t.(type) {
	case *nursery.Lot:
		if t.Batch != nil {
			return []*nursery.Batch{t.Batch}
		}
		return t.Batches
	case *nursery.Tree:
		if t.Batch != nil {
			return []*nursery.Batch{t.Batch}
		}
	}
	return nil
}

// matched refuses filters that let nothing through, ever: a name is spelled
// wrong, or the filters exclude each other.
func (e *earnings) matched() error {
	if len(e.options.Filters) == 0 {
		return nil
	}
	for _, list := range e.order {
		if len(list) > 0 {
			return nil
		}
	}
	var asked []string
	for _, f := range e.options.Filters {
		asked = append(asked, fmt.Sprintf("%s %q", f.Name, f.Value))
	}
	return fmt.Errorf("nothing that was sold, given, lost or stands%s is of %s", (&profitDoc{earnings: e}).inPeriod(), listed(asked))
}

// facetsPass reports whether a flow has one of the values asked for, of every
// facet that is filtered.
func facetsPass(n *nursery.Nursery, f *cost.Flow, filters []table.Filter) bool {
	return letThrough(filters, func(filter string) string { return facetNamed(filter).of(n, f) })
}
