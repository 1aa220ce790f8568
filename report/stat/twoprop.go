package stat

import "math"

// Newcombe is the hybrid score interval of the difference of two independent
// proportions, a's less b's:
//
//	d - sqrt((pa-la)^2 + (ub-pb)^2),  d + sqrt((ua-pa)^2 + (pb-lb)^2)
//
// with d = pa-pb and l, u the Wilson limits of each.
//
// Method 10 of R. G. Newcombe (1998), Interval estimation for the difference
// between independent proportions, Statistics in Medicine 17:873-890.
//
// Where either has no trials the interval is [-1, 1].
func Newcombe(a, b Tally, conf float64) Interval {
	return NewcombeWide(a, b, Widening{}, Widening{}, conf)
}

// NewcombeWide is Newcombe's interval where trials come in lots that differ
// more than chance: each proportion brings its widened Wilson interval.
func NewcombeWide(a, b Tally, wa, wb Widening, conf float64) Interval {
	la, lb := WilsonWide(a, wa, conf), WilsonWide(b, wb, conf)
	if a.N == 0 || b.N == 0 {
		return Interval{-1, 1}
	}
	pa, pb := a.Rate(), b.Rate()
	return Interval{
		pa - pb - math.Hypot(pa-la.Low, lb.High-pb),
		pa - pb + math.Hypot(la.High-pa, pb-lb.Low),
	}
}

// Homogeneity is Pearson's chi-square test that all groups share one rate:
// the sum of (X-Np)^2/(Np(1-p)), with p the pooled rate, on one degree of
// freedom less than there are groups. No continuity correction. Of two groups
// it is the chi-square test of a two by two table.
//
// K. Pearson (1900), Philosophical Magazine, series 5, 50:157-175, with the
// degrees of freedom of R. A. Fisher (1922), Journal of the Royal Statistical
// Society 85:87-94.
//
// Groups without trials are passed over. ok is false where fewer than two
// remain, or where every trial had the same outcome.
func Homogeneity(groups []Tally) (test Test, ok bool) {
	pool := Pool(groups)
	var sum float64
	df := -1
	for _, g := range groups {
		g.mustBeValid()
		if g.N == 0 {
			continue
		}
		df++
		residual := float64(g.X) - float64(g.N)*pool.Rate()
		sum += residual * residual / float64(g.N)
	}
	if df < 1 || pool.X == 0 || pool.X == pool.N {
		return Test{}, false
	}
	return chiSquareTest(sum/(pool.Rate()*(1-pool.Rate())), df), true
}
