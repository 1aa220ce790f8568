package nursery

import (
	"cmp"
	"slices"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/fact"
	spelling "github.com/budstick/budstick/grammar/name"
)

// inOrder merges the entries of all pages by day, within a day by file and
// line, with what is declared on a day before what is done on it (but see
// standsFirst), and without those that were struck.
func (n *Nursery) inOrder(pages []*entry.Page, until fact.Date) []*fact.Entry {
	struck := n.strikes(pages)
	files := make([][]*fact.Entry, 0, len(pages))
	total := 0
	for _, p := range slices.SortedStableFunc(slices.Values(pages), func(a, b *entry.Page) int {
		return cmp.Compare(a.File.Path, b.File.Path)
	}) {
		list := make([]*fact.Entry, 0, len(p.Entries))
		for i := range p.Entries {
			if e := &p.Entries[i]; (until == 0 || e.Date <= until) && !struck[e] {
				list = append(list, e)
			}
		}
		files = append(files, byDay(list))
		total += len(list)
	}
	list := make([]*fact.Entry, 0, total)
	for len(list) < total {
		list = nextDay(list, files)
	}
	return list
}

// byDay puts the entries of one file in the order of their days, in which they
// stand unless one of the days is wrong.
func byDay(list []*fact.Entry) []*fact.Entry {
	compare := func(a, b *fact.Entry) int { return cmp.Compare(a.Date, b.Date) }
	if !slices.IsSortedFunc(list, compare) {
		slices.SortStableFunc(list, compare)
	}
	return list
}

// nextDay takes the entries of the earliest day off the files and appends them
// to list, declarations first.
func nextDay(list []*fact.Entry, files [][]*fact.Entry) []*fact.Entry {
	const never = 1 << 30
	day := fact.Date(never)
	for _, f := range files {
		if len(f) > 0 {
			day = min(day, f[0].Date)
		}
	}
	planted := plantedOn(day, files)
	for _, declares := range []bool{true, false} {
		for i, f := range files {
			end := 0
			for ; end < len(f) && f[end].Date == day; end++ {
				if standsFirst(f[end].Effect, planted) == declares {
					list = append(list, f[end])
				}
			}
			if !declares {
				files[i] = f[end:]
			}
		}
	}
	return list
}

// standsFirst reports whether what an entry declares holds for its whole day: all
// does, save a limb of a tree that is planted that day, which stands where it is
// written.
func standsFirst(e fact.Effect, planted map[string]bool) bool {
	if l, ok := e.(*fact.Limb); ok && planted[spelling.Fold(l.Of.Text)] {
		return false
	}
	return fact.Declares(e)
}

// plantedOn are the folded names of the trees that are planted on a day for which
// limbs are declared, too; nil on other days.
func plantedOn(day fact.Date, files [][]*fact.Entry) map[string]bool {
	if !slices.ContainsFunc(files, func(f []*fact.Entry) bool {
		return hasOn(day, f, func(e fact.Effect) bool { _, limb := e.(*fact.Limb); return limb })
	}) {
		return nil
	}
	names := map[string]bool{}
	for _, f := range files {
		hasOn(day, f, func(e fact.Effect) bool {
			if p, ok := e.(*fact.Plant); ok {
				row := rowOf(p)
				for k := range row.count {
					names[spelling.Fold(row.name(k))] = true
				}
			}
			return false
		})
	}
	return names
}

// hasOn reports whether one of the entries of a day, with which a list begins, is
// what is asked for.
func hasOn(day fact.Date, list []*fact.Entry, is func(fact.Effect) bool) bool {
	for _, e := range list {
		if e.Date != day {
			break
		}
		if is(e.Effect) {
			return true
		}
	}
	return false
}
