package stat

import "math"

// Overdispersion says how much more lots of one group differ than coin tosses
// of one chance would.
type Overdispersion struct {
	// Pearson is the sum of (X-Np)^2/(Np(1-p)) about the pooled rate of each
	// group, DF its degrees of freedom: lots less groups.
	Pearson float64
	DF      int
}

// Phi is Pearson over DF, the factor by which the variance of a count
// exceeds the binomial one, and never below 1. Where DF is 0 nothing is known
// of it and it is 1.
//
// P. McCullagh and J. A. Nelder (1989), Generalized Linear Models, 2nd
// edition, section 4.5.
func (o Overdispersion) Phi() float64 {
	if o.DF == 0 {
		return 1
	}
	return max(1, o.Pearson/float64(o.DF))
}

// BetweenLots reckons the overdispersion of lots within their groups; the
// lots of each group share that group's rate. Lots without trials are passed
// over, as are groups of one outcome only, which cannot vary.
func BetweenLots(groups ...[]Tally) Overdispersion {
	var o Overdispersion
	for _, lots := range groups {
		if test, ok := Homogeneity(lots); ok {
			o.Pearson += test.Statistic
			o.DF += test.DF
		}
	}
	return o
}

// Cluster is the pooled rate of lots as a ratio estimate.
type Cluster struct {
	Rate, StdError float64
	// DesignEffect is the variance over that of as many single trials:
	// below 1 where lots agree better than chance.
	DesignEffect float64
}

// ClusterRate is the pooled rate of lots drawn from a wider run of lots, and
// its standard error by the spread between them:
//
//	SE^2 = m/(m-1) sum (X - p N)^2 / (sum N)^2  of m lots.
//
// W. G. Cochran (1977), Sampling Techniques, 3rd edition, section 3.12, and
// J. N. K. Rao and A. J. Scott (1992), Biometrics 48:577-585, for the design
// effect, SE^2 / (p(1-p)/sum N).
//
// Lots without trials are passed over. ok is false with fewer than two lots,
// or one outcome only: there is a rate, but no spread to reckon with.
func ClusterRate(lots []Tally) (c Cluster, ok bool) {
	pool := Pool(lots)
	c.Rate = pool.Rate()
	m, sum := 0, 0.0
	for _, lot := range lots {
		lot.mustBeValid()
		if lot.N == 0 {
			continue
		}
		m++
		residual := float64(lot.X) - c.Rate*float64(lot.N)
		sum += residual * residual
	}
	if m < 2 || pool.X == 0 || pool.X == pool.N {
		return c, false
	}
	n := float64(pool.N)
	variance := float64(m) / float64(m-1) * sum / (n * n)
	c.StdError = math.Sqrt(variance)
	c.DesignEffect = variance / (c.Rate * (1 - c.Rate) / n)
	return c, true
}

// WilsonWide is Wilson's interval with the effective number of trials, N over
// phi, and Wilson's own where phi is 1 or less.
func WilsonWide(t Tally, phi, conf float64) Interval {
	t.mustBeValid()
	return WilsonEffective(t.Rate(), float64(t.N)/max(1, phi), conf)
}
