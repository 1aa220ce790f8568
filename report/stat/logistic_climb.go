package stat

import "math"

// climb is the ascent of a design's likelihood. Every cell has the chance p
// that its block and its columns add up to.
type climb struct {
	*design
	block, column []float64 // the log odds that each adds
	eta, p        []float64
	logLik        float64
	runaway       []int // for how many steps in a row each cell has run away
}

const (
	climbSteps = 100
	// arrived is the gain in log likelihood that a step promises below which
	// it is the last: steps are Newton's, and the error squares with each.
	arrived = 1e-10
	// rounding is the share of the log likelihood that a sum over many cells
	// may be off: a loss within it is none.
	rounding = 1e-12
	// A cell of one outcome whose log odds still move outward by outward or
	// more, for patience steps in a row that promise less than little, will
	// never stop: where a maximum is near, so short of gain, steps are short.
	little   = 1e-2
	outward  = 0.5
	patience = 3
)

// ascend climbs to the maximum by Newton's steps, halved while they lose. It
// stops early, and reports which cells, when some run away to certainty.
func (d *design) ascend() (c *climb, runaway []bool) {
	c = &climb{
		design: d,
		block:  make([]float64, len(d.blocks)), column: make([]float64, len(d.columns)),
		eta: make([]float64, len(d.cells)), p: make([]float64, len(d.cells)),
		runaway: make([]int, len(d.cells)),
	}
	var x, n float64
	for _, cell := range d.cells {
		x += cell.x
		n += cell.n
	}
	for b := range c.block {
		c.block[b] = math.Log(x / (n - x))
	}
	c.follow()
	for range climbSteps {
		blockStep, columnStep, gain := c.step()
		least := c.logLik - rounding*math.Abs(c.logLik)
		c.move(blockStep, columnStep, 1)
		if gain < arrived {
			break
		}
		for part := 0.5; c.logLik < least && part > 1e-10; part /= 2 {
			c.move(blockStep, columnStep, -part)
		}
		if gain > little {
			continue
		}
		if cells := c.runaways(blockStep, columnStep); cells != nil {
			return c, cells
		}
	}
	return c, nil
}

// follow brings chances and likelihood up to date with the log odds.
func (c *climb) follow() {
	c.logLik = 0
	for b, block := range c.blocks {
		for i := block.first; i < block.last; i++ {
			c.eta[i] = c.block[b]
			for _, j := range c.entries[i] {
				c.eta[i] += c.column[j]
			}
			c.p[i] = 1 / (1 + math.Exp(-c.eta[i]))
			// x log p + (n-x) log(1-p), where neither logarithm cancels.
			cell := c.cells[i]
			failed := math.Log1p(math.Exp(-math.Abs(c.eta[i])))
			if c.eta[i] >= 0 {
				c.logLik -= cell.n*failed + (cell.n-cell.x)*c.eta[i]
			} else {
				c.logLik -= cell.n*failed - cell.x*c.eta[i]
			}
		}
	}
}

func (c *climb) move(block, column []float64, part float64) {
	for b, step := range block {
		c.block[b] += part * step
	}
	for j, step := range column {
		c.column[j] += part * step
	}
	c.follow()
}

// weights are n p (1-p), the information in each cell.
func (c *climb) weights() []float64 {
	w := make([]float64, len(c.cells))
	for i, cell := range c.cells {
		odds := math.Exp(-math.Abs(c.eta[i]))
		w[i] = cell.n * odds / ((1 + odds) * (1 + odds))
	}
	return w
}

// step is Newton's, and the gain in likelihood (twice over) that it promises.
func (c *climb) step() (block, column []float64, gain float64) {
	weight := c.weights()
	score := make([]float64, len(c.cells))
	for i, cell := range c.cells {
		score[i] = cell.x - cell.n*c.p[i]
	}
	eq := c.assemble(weight, score)
	column = eliminate(eq.rest, eq.scale).solve(eq.score)
	block = make([]float64, len(c.blocks))
	for b, blk := range c.blocks {
		left := eq.blockScore[b]
		for i := blk.first; i < blk.last; i++ {
			for _, j := range c.entries[i] {
				left -= weight[i] * column[j]
			}
		}
		block[b] = left / eq.block[b]
	}
	for b, blk := range c.blocks {
		for i := blk.first; i < blk.last; i++ {
			gain += score[i] * c.outward(b, i, block, column)
		}
	}
	return block, column, gain
}

// outward is by how much a step moves the log odds of cell i of block b.
func (c *climb) outward(b, i int, block, column []float64) float64 {
	sum := block[b]
	for _, j := range c.entries[i] {
		sum += column[j]
	}
	return sum
}

// runaways are the cells that have run away for long enough, nil if none has.
func (c *climb) runaways(block, column []float64) []bool {
	found := false
	cells := make([]bool, len(c.cells))
	for b, blk := range c.blocks {
		for i := blk.first; i < blk.last; i++ {
			side := math.Copysign(1, c.eta[i])
			cell := c.cells[i]
			certain := cell.x == 0 && side < 0 || cell.x == cell.n && side > 0
			if certain && side*c.outward(b, i, block, column) > outward {
				c.runaway[i]++
			} else {
				c.runaway[i] = 0
			}
			if c.runaway[i] >= patience {
				cells[i], found = true, true
			}
		}
	}
	if !found {
		return nil
	}
	return cells
}
