package stat

import (
	"maps"
	"math"
	"slices"
)

// independent is the design without the columns that depend on those before
// them, and which those are.
func (d *design) independent() (kept *design, dependent []dependentColumn) {
	even := make([]float64, len(d.cells))
	for i := range even {
		even[i] = 1
	}
	eq := d.assemble(even, make([]float64, len(d.cells)))
	e := eliminate(eq.rest, eq.scale)
	if len(e.dependent) == 0 {
		return d, nil
	}
	for _, j := range e.dependent {
		dependent = append(dependent, dependentColumn{d.columns[j], d.relation(j, e.combination(j), even, eq.block)})
	}
	kept = &design{absorbed: d.absorbed, reference: d.reference, cells: d.cells, blocks: d.blocks, at: map[column]int{}}
	renumbered := make([]int32, len(d.columns))
	for j, col := range d.columns {
		renumbered[j] = none
		if !slices.Contains(e.dependent, j) {
			renumbered[j] = int32(len(kept.columns))
			kept.at[col] = len(kept.columns)
			kept.columns = append(kept.columns, col)
		}
	}
	kept.entries = make([][]int32, len(d.entries))
	for i, entries := range d.entries {
		for _, j := range entries {
			if renumbered[j] != none {
				kept.entries[i] = append(kept.entries[i], renumbered[j])
			}
		}
	}
	return kept, dependent
}

// dependentColumn is a column and those of which it is a combination.
type dependentColumn struct {
	column
	on []column
}

// relation lists the levels that column j is made of, given its weights on the
// columns before it: itself less a constant is a sum of multiples of these.
func (d *design) relation(j int, weights, even, blockWeight []float64) []column {
	parts := map[effect]map[levels]float64{}
	put := func(c column, weight float64) {
		if parts[c.effect] == nil {
			parts[c.effect] = map[levels]float64{}
		}
		parts[c.effect][c.levels] = weight
	}
	for k, w := range weights {
		put(d.columns[k], w)
	}
	if d.absorbed != none {
		for b, w := range d.remainder(j, weights, even, blockWeight) {
			put(column{effect{d.absorbed, none}, levels{d.blocks[b].level, none}}, w)
		}
	}
	var on []column
	for _, e := range slices.SortedFunc(maps.Keys(parts), compareEffects) {
		part := parts[e]
		shift := 0.0
		if e.second == none && e != d.columns[j].effect {
			if e.first != d.absorbed {
				put(column{e, levels{d.reference[e.first], none}}, 0)
			}
			shift = commonest(part)
		}
		for _, at := range slices.SortedFunc(maps.Keys(part), compareLevels) {
			if math.Abs(part[at]-shift) > noise {
				on = append(on, column{e, at})
			}
		}
	}
	return on
}

// noise is how far apart weights of a relation may be and count as equal.
const noise = 1e-6

// commonest is the weight that most levels of a factor have. The levels of a
// factor add up to the constant, so taking it off all of them says the same in
// the fewest words: that one hand did all bark grafts, say, and not that it
// did all but whips and clefts. Of equals it is the smallest, which leaves the
// others positive.
func commonest(part map[levels]float64) float64 {
	sorted := slices.Sorted(maps.Values(part))
	best, most := 0.0, 0
	for i := 0; i < len(sorted); {
		end := i
		for end < len(sorted) && sorted[end]-sorted[i] <= noise {
			end++
		}
		if end-i > most {
			best, most = sorted[i], end-i
		}
		i = end
	}
	return best
}

// remainder is what the columns leave of column j, which is constant within
// each block.
func (d *design) remainder(j int, weights, even, blockWeight []float64) []float64 {
	left := make([]float64, len(d.blocks))
	cross := newSparse(len(d.columns))
	for b := range d.blocks {
		d.crossing(b, even, cross)
		left[b] = cross.value[j]
		for _, k := range cross.touched {
			if int(k) < j {
				left[b] -= weights[k] * cross.value[k]
			}
		}
		left[b] /= blockWeight[b]
	}
	return left
}
