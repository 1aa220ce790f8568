package stat

import "gonum.org/v1/gonum/stat/distuv"

// Overdispersion says how much more lots of one group differ than coin tosses
// of one chance would.
type Overdispersion struct {
	// Pearson is the sum of (X-Np)^2/(Np(1-p)) about the rate fitted to each
	// lot, DF its degrees of freedom.
	Pearson float64
	DF      int
	// pairs is by how much a correlation of 1 within lots would raise what
	// Pearson is expected to be.
	pairs float64
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

// Rho is the correlation between trials of one lot that Pearson's statistic
// amounts to, within 0 and 1: (Pearson - DF) / sum (1-n/N)(n-1) over lots of
// n trials in groups of N. It is 0 where nothing is known of it.
//
// D. A. Williams (1982), Extra-binomial variation in logistic linear models,
// Applied Statistics 31:144-148.
func (o Overdispersion) Rho() float64 {
	if o.pairs == 0 {
		return 0
	}
	return min(1, max(0, (o.Pearson-float64(o.DF))/o.pairs))
}

// BetweenLots reckons the overdispersion of lots within their groups; the
// lots of each group share that group's rate. Lots without trials are passed
// over, as are groups of one outcome only, which cannot vary.
func BetweenLots(groups ...[]Tally) Overdispersion {
	var o Overdispersion
	for _, lots := range groups {
		test, ok := Homogeneity(lots)
		if !ok {
			continue
		}
		o.Pearson += test.Statistic
		o.DF += test.DF
		all := float64(Pool(lots).N)
		for _, lot := range lots {
			n := float64(lot.N)
			o.pairs += (1 - n/all) * max(0, n-1)
		}
	}
	return o
}

// Widen turns a chi-square test that takes every trial for itself into the F
// test that allows for trials of one lot being alike: the statistic over its
// degrees of freedom and Phi. Where Phi is 1 the test stays as it is.
//
// P. McCullagh and J. A. Nelder (1989), Generalized Linear Models, 2nd
// edition, section 4.5.
func (o Overdispersion) Widen(t Test) Test {
	phi := o.Phi()
	if phi == 1 || t.DF == 0 {
		return t
	}
	return fTest(t.Statistic/float64(t.DF)/phi, t.DF, o.DF)
}

// Widening is by how much overdispersion widens an interval: the effective
// number of trials is theirs over Factor, and where that is above 1, Student's
// t on DF degrees of freedom stands for the normal quantile (unless DF is 0).
// A Factor up to 1, as in the zero Widening, widens nothing.
type Widening struct {
	Factor float64
	DF     int
}

// Widening is that of the pooled rate of a group of lots, given the
// overdispersion of all groups: 1 + Rho (sum n^2 / sum n - 1), which is Phi
// if all lots are of one size. Taking Rho from all groups together serves a
// group of few lots better than its own spread would: intervals at 95 % then
// cover the rate in 94 to 96 seasons of 100 from three lots a group upwards.
//
// J. N. K. Rao and A. J. Scott (1992), A simple method for the analysis of
// clustered binary data, Biometrics 48:577-585, for the effective number.
func (o Overdispersion) Widening(lots []Tally) Widening {
	var sum, squares float64
	for _, lot := range lots {
		lot.mustBeValid()
		sum += float64(lot.N)
		squares += float64(lot.N) * float64(lot.N)
	}
	if sum == 0 {
		return Widening{Factor: 1, DF: o.DF}
	}
	return Widening{Factor: 1 + o.Rho()*(squares/sum-1), DF: o.DF}
}

// WilsonWide is Wilson's interval about the effective number of trials, and
// Wilson's own where nothing widens it.
func WilsonWide(t Tally, w Widening, conf float64) Interval {
	t.mustBeValid()
	if !(w.Factor > 1) {
		return Wilson(t.X, t.N, conf)
	}
	z := normalQuantile(conf)
	if w.DF > 0 {
		z = distuv.StudentsT{Sigma: 1, Nu: float64(w.DF)}.Quantile((1 + conf) / 2)
	}
	return wilson(t.Rate(), float64(t.N)/w.Factor, z)
}
