package stat

import (
	"cmp"
	"maps"
	"math"
	"slices"
)

// design lays the equations of a fit out. One factor, the largest, has an
// indicator for every level and no intercept beside it: its part of the
// equations is diagonal, a number for each block of cells that share a level,
// and is eliminated as it is summed. The other effects have a column for each
// level but the reference. So memory grows with the square of the other
// effects' columns, and not with the largest factor's levels.
type design struct {
	absorbed  int // the factor of the blocks; none for a single block
	reference []int
	cells     []cell // those of a block next to each other
	blocks    []block
	columns   []column
	at        map[column]int // position in columns
	entries   [][]int32      // the columns in which each cell has a 1
}

// block is cells first to last (excluded), which share a level of the
// absorbed factor.
type block struct {
	level, first, last int
}

// blockOf finds the block of a level of the absorbed factor.
func (d *design) blockOf(level int) (b int, ok bool) {
	return slices.BinarySearchFunc(d.blocks, level, func(b block, level int) int { return cmp.Compare(b.level, level) })
}

// column is the indicator of a level of an effect.
type column struct {
	effect effect
	levels levels
}

func (r *regression) newDesign(cells []cell, terms []effect, reference []int) *design {
	absorbed := r.largest(terms)
	d := &design{absorbed: absorbed, reference: reference, cells: cells, at: map[column]int{}}
	if absorbed == none {
		d.blocks = []block{{none, 0, len(cells)}}
	} else {
		d.cells = sortedByLevel(cells, len(r.Factors[absorbed].Levels), func(c cell) int { return c.levels[absorbed] })
		for i, c := range d.cells {
			level := c.levels[absorbed]
			if i == 0 || d.blocks[len(d.blocks)-1].level != level {
				d.blocks = append(d.blocks, block{level: level, first: i})
			}
			d.blocks[len(d.blocks)-1].last = i + 1
		}
	}
	for _, e := range terms {
		if e != (effect{absorbed, none}) {
			d.addColumns(e)
		}
	}
	d.enter(terms)
	return d
}

// tooLarge refuses more columns than can be held.
func (d *design) tooLarge() error {
	if len(d.columns) > columnLimit {
		return &TooManyLevelsError{len(d.columns), columnLimit}
	}
	return nil
}

// addColumns gives an effect a column for each level that some cell has and
// that involves no reference level, in order.
func (d *design) addColumns(e effect) {
	seen := map[column]bool{}
	var found []column
	for _, c := range d.cells {
		col := column{e, e.of(c)}
		if !d.isReference(col) && !seen[col] {
			seen[col] = true
			found = append(found, col)
		}
	}
	slices.SortFunc(found, func(a, b column) int { return compareLevels(a.levels, b.levels) })
	for _, col := range found {
		d.at[col] = len(d.columns)
		d.columns = append(d.columns, col)
	}
}

func (d *design) isReference(c column) bool {
	return c.levels.first == d.reference[c.effect.first] ||
		c.effect.second != none && c.levels.second == d.reference[c.effect.second]
}

// enter finds the columns of each cell.
func (d *design) enter(terms []effect) {
	d.entries = make([][]int32, len(d.cells))
	all := make([]int32, 0, len(d.cells)*len(terms))
	for i, c := range d.cells {
		start := len(all)
		for _, e := range terms {
			if at, ok := d.at[column{e, e.of(c)}]; ok {
				all = append(all, int32(at))
			}
		}
		d.entries[i] = all[start:]
	}
}

// equations are the normal equations of a weighting with the blocks
// eliminated.
type equations struct {
	block      []float64 // the diagonal part
	blockScore []float64
	rest       symmetric // what is left for the columns
	scale      []float64 // its diagonal before the blocks were taken out
	score      []float64
}

// assemble sums up the equations of a weight and a score for each cell.
func (d *design) assemble(weight, score []float64) *equations {
	q := len(d.columns)
	eq := &equations{
		block:      make([]float64, len(d.blocks)),
		blockScore: make([]float64, len(d.blocks)),
		rest:       newSymmetric(q),
		scale:      make([]float64, q),
		score:      make([]float64, q),
	}
	cross := newSparse(q)
	for b, block := range d.blocks {
		cross.clear()
		for i := block.first; i < block.last; i++ {
			w := weight[i]
			eq.block[b] += w
			eq.blockScore[b] += score[i]
			for _, j := range d.entries[i] {
				cross.add(j, w)
				eq.scale[j] += w
				eq.score[j] += score[i]
				for _, k := range d.entries[i] {
					if k <= j {
						eq.rest.cells[int(j)*q+int(k)] += w
					}
				}
			}
		}
		for _, j := range cross.touched {
			share := cross.value[j] / eq.block[b]
			eq.score[j] -= share * eq.blockScore[b]
			row := eq.rest.row(int(j), q)
			for _, k := range cross.touched {
				if k <= j {
					row[k] -= share * cross.value[k]
				}
			}
		}
	}
	return eq
}

// crossing is the sum of weights that a block shares with each column.
func (d *design) crossing(b int, weight []float64, into *sparse) {
	into.clear()
	for i := d.blocks[b].first; i < d.blocks[b].last; i++ {
		for _, j := range d.entries[i] {
			into.add(j, weight[i])
		}
	}
}

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

// sparse is a vector with few entries other than 0, cleared in time in
// proportion to them.
type sparse struct {
	value   []float64
	in      []bool
	touched []int32
}

func newSparse(size int) *sparse {
	return &sparse{value: make([]float64, size), in: make([]bool, size)}
}

func (s *sparse) add(j int32, v float64) {
	if !s.in[j] {
		s.in[j] = true
		s.touched = append(s.touched, j)
	}
	s.value[j] += v
}

func (s *sparse) clear() {
	for _, j := range s.touched {
		s.value[j], s.in[j] = 0, false
	}
	s.touched = s.touched[:0]
}
