package stat

import "slices"

// solution is the maximum of a regression's likelihood over some effects:
// finite where all is estimable, and for the rest the limit in which cells of
// one outcome are fitted with certainty.
type solution struct {
	full      *design // of all cells, columns independent
	dependent []dependentColumn
	finite    *climb // of the cells fitted without certainty, nil if none
	logLik    float64

	// What follows is for the errors of a finite part, once it is inverted.
	weight  []float64 // of its cells
	block   []float64 // their sums in each block
	inverse symmetric // covariance of its columns
}

// maximise fits the effects. What the likelihood drives to certainty is set
// aside first, as far as single levels show it, and then as the climb does.
func (r *regression) maximise(terms []effect) (*solution, error) {
	s := &solution{}
	cells := withoutCertain(r.cells, terms)
	for len(cells) > 0 {
		d := r.newDesign(cells, terms, r.references(cells))
		if err := d.tooLarge(); err != nil {
			return nil, err
		}
		kept, dependent := d.independent()
		climb, runaway := kept.ascend()
		if runaway == nil {
			s.finite, s.logLik = climb, climb.logLik
			s.full, s.dependent = kept, dependent
			break
		}
		var left []cell
		for i, c := range kept.cells {
			if !runaway[i] {
				left = append(left, c)
			}
		}
		cells = withoutCertain(left, terms)
	}
	if len(cells) < len(r.cells) {
		// The same references as the finite part, so that columns compare.
		d := r.newDesign(r.cells, terms, r.references(cells))
		if err := d.tooLarge(); err != nil {
			return nil, err
		}
		s.full, s.dependent = d.independent()
	}
	return s, nil
}

// rank is the number of independent columns, intercept included.
func (s *solution) rank() int {
	return len(s.full.blocks) + len(s.full.columns)
}

// largest is the factor with most levels of those that stand in terms alone,
// the first of equals.
func (r *regression) largest(terms []effect) int {
	largest := none
	for _, e := range terms {
		if e.second == none && (largest == none || len(r.used[e.first]) > len(r.used[largest])) {
			largest = e.first
		}
	}
	return largest
}

// withoutCertain drops cells of every level, of any effect, whose trials all
// had one outcome, and again until there is none: such a level's odds are
// fitted as none or all.
func withoutCertain(cells []cell, terms []effect) []cell {
	for {
		before := len(cells)
		for _, e := range terms {
			totals := totalsOf(cells, e)
			cells = slices.DeleteFunc(slices.Clone(cells), func(c cell) bool {
				t := totals[e.of(c)]
				return t.x == 0 || t.x == t.n
			})
		}
		if len(cells) == before {
			return cells
		}
	}
}

// references are the levels with most trials in the given cells, or in all
// where these have none, the first of equals.
func (r *regression) references(cells []cell) []int {
	if len(cells) == 0 {
		cells = r.cells
	}
	reference := make([]int, len(r.Factors))
	for f, factor := range r.Factors {
		trials := make([]float64, len(factor.Levels))
		for _, c := range cells {
			trials[c.levels[f]] += c.n
		}
		for level, n := range trials {
			if n > trials[reference[f]] {
				reference[f] = level
			}
		}
	}
	return reference
}

// total is the successes and trials of many cells.
type total struct {
	x, n float64
}

// totalsOf adds cells up by their level of an effect.
func totalsOf(cells []cell, e effect) map[levels]total {
	totals := map[levels]total{}
	for _, c := range cells {
		t := totals[e.of(c)]
		totals[e.of(c)] = total{t.x + c.x, t.n + c.n}
	}
	return totals
}

// dispersion is Pearson's statistic of the rows fitted without certainty, on
// as many degrees of freedom as they exceed the columns fitted to them.
// McCullagh and Nelder (1989), section 4.5.2.
func (s *solution) dispersion(r *regression) Overdispersion {
	var o Overdispersion
	if s.finite == nil {
		return o
	}
	for i, c := range s.finite.cells {
		p := s.finite.p[i]
		for _, at := range r.rows[c.first:c.last] {
			x, n := float64(r.Counts[at].X), float64(r.Counts[at].N)
			o.Pearson += (x - n*p) * (x - n*p) / (n * p * (1 - p))
		}
		o.DF += c.last - c.first
	}
	o.DF -= len(s.finite.blocks) + len(s.finite.columns)
	return o
}

// isDependent reports whether a column is a combination of others.
func (s *solution) isDependent(c column) bool {
	return slices.ContainsFunc(s.dependent, func(d dependentColumn) bool { return d.column == c })
}

// estimable reports whether the finite part has something to say of a level.
func (s *solution) estimable(c column) bool {
	if s.finite == nil {
		return false
	}
	if c.effect == (effect{s.finite.absorbed, none}) {
		_, ok := s.finite.blockOf(c.levels.first)
		return ok
	}
	if _, ok := s.finite.at[c]; ok {
		return true
	}
	return s.finite.isReference(c) && slices.ContainsFunc(s.finite.cells, func(cell cell) bool {
		return c.effect.of(cell) == c.levels
	})
}
