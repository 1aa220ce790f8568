package stat

import (
	"cmp"
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
