package report

import (
	"fmt"
	"slices"

	"github.com/budstick/budstick/grammar/name"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

// letThrough reports whether what has a value by each name has one of the values
// asked for, of every name that is filtered: filters of one name are
// alternatives.
func letThrough(filters []table.Filter, valueOf func(filter string) string) bool {
	for i, f := range filters {
		again := func(g table.Filter) bool { return g.Name == f.Name }
		if slices.ContainsFunc(filters[:i], again) {
			continue // it was one of the alternatives before
		}
		value := valueOf(f.Name)
		if !slices.ContainsFunc(filters, func(g table.Filter) bool { return again(g) && sameName(g.Value, value) }) {
			return false
		}
	}
	return true
}

// sameName compares names as a journal compares them.
func sameName(a, b string) bool { return name.Fold(a) == name.Fold(b) }

// passes applies the filters that an attempt can answer.
func passes(n *nursery.Nursery, b *nursery.Batch, filters []table.Filter) bool {
	return letThrough(filters, func(filter string) string { return dimensionNamed(filter).of(n, b) })
}

// lotPasses applies the filters that a lot can answer.
func lotPasses(n *nursery.Nursery, l *nursery.Lot, filters []table.Filter) bool {
	return letThrough(filters, func(filter string) string {
		switch {
		case filter == "variety":
			return l.Top.String()
		case filter == "stock" && l.Grafted():
			return l.Stock().String()
		case filter == "stock":
			return ""
		case filter == "place":
			return placeName(l.Place)
		case filter == "lot":
			return l.Name
		case l.Batch == nil:
			return ""
		}
		return dimensionNamed(filter).of(n, l.Batch)
	})
}

// treePasses applies the filters that a standing tree can answer.
func treePasses(t *nursery.Tree, filters []table.Filter) bool {
	return letThrough(filters, func(filter string) string {
		return map[string]string{"variety": t.Identity().String(), "place": placeName(t.Place)}[filter]
	})
}

// varietyPasses applies the filters that a variety can answer.
func varietyPasses(v *nursery.Variety, filters []table.Filter) bool {
	return letThrough(filters, func(filter string) string { return map[string]string{"variety": v.Name}[filter] })
}

// held refuses a filter for a value that nothing here has, or ever had, so that a
// slip in a name doesn't read as if nothing stood, or nothing were due.
func held(n *nursery.Nursery, filters []table.Filter) error {
	for _, f := range filters {
		one := []table.Filter{f}
		_, place := n.Place(f.Value)
		if f.Name == "place" && place ||
			slices.ContainsFunc(n.Lots, func(l *nursery.Lot) bool { return lotPasses(n, l, one) }) ||
			slices.ContainsFunc(n.Trees, func(t *nursery.Tree) bool { return treePasses(t, one) }) ||
			slices.ContainsFunc(n.Varieties, func(v *nursery.Variety) bool { return varietyPasses(v, one) }) {
			continue
		}
		return fmt.Errorf("no lot and no tree has the %s %q", f.Name, f.Value)
	}
	return nil
}
