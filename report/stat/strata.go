package stat

import "math"

// Stratum is a two by two table within one stratum: two groups compared where
// all else that the stratum stands for is the same.
type Stratum struct {
	A, B Tally
}

// cells are a's successes and failures, then b's, then their sum.
func (s Stratum) cells() (a, b, c, d, n float64) {
	s.A.mustBeValid()
	s.B.mustBeValid()
	a, b = float64(s.A.X), float64(s.A.N-s.A.X)
	c, d = float64(s.B.X), float64(s.B.N-s.B.X)
	return a, b, c, d, a + b + c + d
}

// informative reports whether no margin of the table is 0: the others say
// nothing of the odds ratio and every method below passes them over.
func (s Stratum) informative() bool {
	a, b, c, d, _ := s.cells()
	return a+b > 0 && c+d > 0 && a+c > 0 && b+d > 0
}

// CochranMantelHaenszel tests that the odds ratio is 1 in every stratum,
// against one that is above 1, or below, in all: the square of the summed
// deviations of a's successes from their expectations over the summed
// hypergeometric variances, on one degree of freedom. The corrected test
// draws the sum half a success nearer to 0 first.
//
// W. G. Cochran (1954), Biometrics 10:417-451; N. Mantel and W. Haenszel
// (1959), Journal of the National Cancer Institute 22:719-748.
//
// ok is false where no stratum is informative.
func CochranMantelHaenszel(strata []Stratum) (plain, corrected Test, ok bool) {
	var deviation, variance float64
	for _, s := range strata {
		if !s.informative() {
			continue
		}
		a, b, c, d, n := s.cells()
		deviation += a - (a+b)*(a+c)/n
		if n > 1 {
			variance += (a + b) * (c + d) * (a + c) * (b + d) / (n * n * (n - 1))
		}
	}
	if variance == 0 {
		return Test{}, Test{}, false
	}
	nearer := max(0, math.Abs(deviation)-0.5)
	if math.Abs(deviation) < 0.5 {
		nearer = math.Abs(deviation) // too little to correct, as in R
	}
	plain = chiSquareTest(deviation*deviation/variance, 1)
	corrected = chiSquareTest(nearer*nearer/variance, 1)
	return plain, corrected, true
}

// CommonOdds is the Mantel-Haenszel estimate of an odds ratio, a's over b's,
// that is the same in every stratum, sum(ad/n) / sum(bc/n), and its interval
// at confidence conf by the variance of its logarithm after J. Robins,
// N. Breslow and S. Greenland (1986), Estimators of the Mantel-Haenszel
// variance consistent in both sparse data and large-strata limiting models,
// Biometrics 42:311-323.
//
// ok is false where either sum is 0, as when one group never fails.
func CommonOdds(strata []Stratum, conf float64) (ratio float64, limits Interval, ok bool) {
	z := normalQuantile(conf)
	var r, s, pr, mixed, qs float64
	for _, stratum := range strata {
		if !stratum.informative() {
			continue
		}
		a, b, c, d, n := stratum.cells()
		ri, si := a*d/n, b*c/n
		p, q := (a+d)/n, (b+c)/n
		r += ri
		s += si
		pr += p * ri
		mixed += p*si + q*ri
		qs += q * si
	}
	if r == 0 || s == 0 {
		return 0, Interval{}, false
	}
	ratio = r / s
	se := math.Sqrt(pr/(2*r*r) + mixed/(2*r*s) + qs/(2*s*s))
	return ratio, Interval{ratio * math.Exp(-z*se), ratio * math.Exp(z*se)}, true
}

// BreslowDay tests that all strata share one odds ratio: the squared
// deviations of a's successes from those that the Mantel-Haenszel ratio would
// give, each over its variance, on one degree of freedom less than there are
// informative strata. Tarone's test takes off what the ratio not being the
// likeliest one adds.
//
// N. E. Breslow and N. E. Day (1980), Statistical Methods in Cancer Research
// 1:142; R. E. Tarone (1985), On heterogeneity tests based on efficient
// scores, Biometrika 72:91-95.
//
// ok is false with fewer than two informative strata or no common ratio.
func BreslowDay(strata []Stratum) (plain, tarone Test, ok bool) {
	ratio, _, ok := CommonOdds(strata, 0.95)
	if !ok {
		return Test{}, Test{}, false
	}
	var sum, deviation, variance float64
	df := -1
	for _, s := range strata {
		if !s.informative() {
			continue
		}
		df++
		a, b, c, d, _ := s.cells()
		e := expectedUnder(ratio, a+b, c+d, a+c)
		v := 1 / (1/e + 1/(a+b-e) + 1/(a+c-e) + 1/(d-a+e))
		sum += (a - e) * (a - e) / v
		deviation += a - e
		variance += v
	}
	if df < 1 {
		return Test{}, Test{}, false
	}
	less := max(0, sum-deviation*deviation/variance)
	return chiSquareTest(sum, df), chiSquareTest(less, df), true
}

// expectedUnder is the count of successes of the first of two groups of na
// and nb trials, with so many successes in all, that has the given odds ratio:
// the root of e(nb-successes+e) = ratio (na-e)(successes-e) that lies within
// the margins.
func expectedUnder(ratio, na, nb, successes float64) float64 {
	// (1-ratio) e^2 + half e - last = 0, with the form of the root that does
	// not cancel and also holds at ratio 1.
	half := nb - successes + ratio*(na+successes)
	last := ratio * na * successes
	return 2 * last / (half + math.Sqrt(half*half+4*(1-ratio)*last))
}

// Woolf tests that all strata share one odds ratio by the weighted spread of
// its logarithm, each stratum weighted by 1/(1/a+1/b+1/c+1/d), on one degree
// of freedom less than there are informative strata. If any cell of these is
// 0, a half is added to all.
//
// B. Woolf (1955), On estimating the relation between blood group and
// disease, Annals of Human Genetics 19:251-253.
//
// ok is false with fewer than two informative strata.
func Woolf(strata []Stratum) (test Test, ok bool) {
	var informative []Stratum
	added := 0.0
	for _, s := range strata {
		if !s.informative() {
			continue
		}
		informative = append(informative, s)
		if a, b, c, d, _ := s.cells(); min(a, b, c, d) == 0 {
			added = 0.5
		}
	}
	if len(informative) < 2 {
		return Test{}, false
	}
	var weights, first, second float64
	for _, s := range informative {
		a, b, c, d, _ := s.cells()
		a, b, c, d = a+added, b+added, c+added, d+added
		w := 1 / (1/a + 1/b + 1/c + 1/d)
		logRatio := math.Log(a * d / (b * c))
		weights += w
		first += w * logRatio
		second += w * logRatio * logRatio
	}
	spread := max(0, second-first*first/weights)
	return chiSquareTest(spread, len(informative)-1), true
}
