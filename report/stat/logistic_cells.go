package stat

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// regression is a Logistic made ready to fit: rows with trials in the order of
// their levels, and those with the same levels gathered into cells.
type regression struct {
	Logistic
	rows  []int // positions in Counts
	cells []cell
	// used are the levels of each factor that some row with trials has, in
	// order.
	used [][]int
	// saturated is the log likelihood of fitting each row by its own rate.
	saturated float64
}

// cell is the trials that share their levels: rows first to last (excluded)
// of the regression's order.
type cell struct {
	levels      []int // of each factor
	x, n        float64
	first, last int
}

// effect is a set of columns: those of a factor, or of the interaction of
// two. Second is none for a factor.
type effect struct {
	first, second int
}

const none = -1

// contains reports whether the effect involves all that other involves.
func (e effect) contains(other effect) bool {
	has := func(f int) bool { return f == e.first || f == e.second }
	return has(other.first) && (other.second == none || has(other.second))
}

func newRegression(l Logistic) (*regression, error) {
	mustBeProbability(l.Confidence, "confidence")
	r := &regression{Logistic: l}
	for i, count := range l.Counts {
		count.mustBeValid()
		if count.N > 0 {
			r.rows = append(r.rows, i)
			r.saturated += binomialLogLik(float64(count.X), float64(count.N), count.Rate())
		}
	}
	for _, f := range l.Factors {
		if len(f.At) != len(l.Counts) {
			panic(fmt.Sprintf("stat: factor %s sorts %d of %d rows", f.Name, len(f.At), len(l.Counts)))
		}
	}
	for _, f := range slices.Backward(l.Factors) {
		r.rows = sortedByLevel(r.rows, len(f.Levels), func(row int) int { return f.At[row] })
	}
	r.gather()
	pool := Pool(l.Counts)
	switch {
	case pool.N == 0:
		return nil, ErrNothingKnown
	case pool.X == 0 || pool.X == pool.N:
		return nil, ErrOneOutcome
	}
	r.used = make([][]int, len(l.Factors))
	for f, factor := range l.Factors {
		seen := make([]bool, len(factor.Levels))
		for _, c := range r.cells {
			seen[c.levels[f]] = true
		}
		for level, is := range seen {
			if is {
				r.used[f] = append(r.used[f], level)
			}
		}
	}
	return r, nil
}

// sortedByLevel puts items in the order of their levels, those of one level as
// they were.
func sortedByLevel[T any](items []T, levels int, level func(T) int) []T {
	next := make([]int, levels+1) // where the next item of each level goes
	for _, item := range items {
		next[level(item)+1]++
	}
	for i := range levels {
		next[i+1] += next[i]
	}
	sorted := make([]T, len(items))
	for _, item := range items {
		at := level(item)
		sorted[next[at]] = item
		next[at]++
	}
	return sorted
}

// gather makes a cell of each run of rows with the same levels.
func (r *regression) gather() {
	k := len(r.Factors)
	all := make([]int, 0, k*len(r.rows)) // the levels of all cells
	for i, at := range r.rows {
		for _, f := range r.Factors {
			all = append(all, f.At[at])
		}
		here := all[len(all)-k:]
		if last := len(r.cells) - 1; last >= 0 && slices.Equal(r.cells[last].levels, here) {
			all = all[:len(all)-k]
		} else {
			r.cells = append(r.cells, cell{levels: here, first: i})
		}
		c := &r.cells[len(r.cells)-1]
		c.x += float64(r.Counts[at].X)
		c.n += float64(r.Counts[at].N)
		c.last = i + 1
	}
}

// terms are all effects that can be asked about: factors with two levels or
// more, and the interactions of those.
func (r *regression) terms() []effect {
	var terms []effect
	for f := range r.Factors {
		if len(r.used[f]) > 1 {
			terms = append(terms, effect{f, none})
		}
	}
	for _, pair := range r.Interactions {
		a, b := min(pair[0], pair[1]), max(pair[0], pair[1])
		if a != b && len(r.used[a]) > 1 && len(r.used[b]) > 1 && !slices.Contains(terms, effect{a, b}) {
			terms = append(terms, effect{a, b})
		}
	}
	return terms
}

// name is the factor's, or both joined.
func (r *regression) name(e effect) string {
	if e.second == none {
		return r.Factors[e.first].Name
	}
	return r.Factors[e.first].Name + " × " + r.Factors[e.second].Name
}

// level names a level of an effect.
func (r *regression) level(e effect, at levels) Level {
	name := r.Factors[e.first].Levels[at.first]
	if e.second != none {
		name += " × " + r.Factors[e.second].Levels[at.second]
	}
	return Level{r.name(e), name}
}

func (r *regression) nullLogLik() float64 {
	pool := Pool(r.Counts)
	return binomialLogLik(float64(pool.X), float64(pool.N), pool.Rate())
}

// binomialLogLik is x log p + (n-x) log(1-p), but for the coefficient, with 0
// for 0 log 0.
func binomialLogLik(x, n, p float64) float64 {
	var sum float64
	if x > 0 {
		sum += x * math.Log(p)
	}
	if x < n {
		sum += (n - x) * math.Log1p(-p)
	}
	return sum
}

// levels is where a cell stands on an effect: the levels of its factors,
// second being none for an effect of one factor.
type levels struct {
	first, second int
}

func compareEffects(a, b effect) int {
	return cmp.Or(cmp.Compare(a.first, b.first), cmp.Compare(a.second, b.second))
}

func compareLevels(a, b levels) int {
	return cmp.Or(cmp.Compare(a.first, b.first), cmp.Compare(a.second, b.second))
}

func (e effect) of(c cell) levels {
	if e.second == none {
		return levels{c.levels[e.first], none}
	}
	return levels{c.levels[e.first], c.levels[e.second]}
}
