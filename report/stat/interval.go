package stat

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mathext"
)

// Interval is a closed range of plausible values. High is +Inf where an odds
// ratio has no upper limit.
type Interval struct {
	Low, High float64
}

// Contains reports whether v lies within the interval, ends included.
func (i Interval) Contains(v float64) bool {
	return i.Low <= v && v <= i.High
}

// whole is the interval of a proportion of which nothing is known.
var whole = Interval{0, 1}

// Wilson is the score interval of a proportion, x successes of n, at
// confidence conf (0.95 for 95 %): the rates p with
// |x/n - p| <= z sqrt(p(1-p)/n), solved as a quadratic.
//
// E. B. Wilson (1927), Probable inference, the law of succession, and
// statistical inference, Journal of the American Statistical Association
// 22:209-212; method 3 of R. G. Newcombe (1998), Two-sided confidence
// intervals for the single proportion, Statistics in Medicine 17:857-872.
//
// The low limit of 0 of n is exactly 0, the high limit of n of n exactly 1,
// and of 0 of 0 the interval is [0, 1].
func Wilson(x, n int, conf float64) Interval {
	Tally{x, n}.mustBeValid()
	return WilsonEffective(Tally{x, n}.Rate(), float64(n), conf)
}

// WilsonEffective is Wilson's interval about a rate p that is known as well
// as n independent trials would tell it; n need not be whole. It serves
// trials that come in lots: n is then the trials over their design effect,
// after J. N. K. Rao and A. J. Scott (1992), A simple method for the analysis
// of clustered binary data, Biometrics 48:577-585. No trials give [0, 1].
func WilsonEffective(p, n, conf float64) Interval {
	if !(p >= 0 && p <= 1) || !(n >= 0) || math.IsInf(n, 1) {
		panic(fmt.Sprintf("stat: no rate %v of %v trials", p, n))
	}
	return wilson(p, n, normalQuantile(conf))
}

func wilson(p, n, z float64) Interval {
	if n == 0 {
		return whole
	}
	z2 := z * z / n
	middle := p + z2/2
	half := math.Sqrt(z2) * math.Sqrt(p*(1-p)+z2/4)
	limits := Interval{(middle - half) / (1 + z2), (middle + half) / (1 + z2)}
	if p == 0 {
		limits.Low = 0
	}
	if p == 1 {
		limits.High = 1
	}
	return limits
}

// ClopperPearson is the exact interval of a proportion: the rates under which
// neither x or more nor x or fewer of n is rarer than (1-conf)/2. Its limits
// are quantiles of Beta(x, n-x+1) and Beta(x+1, n-x).
//
// C. J. Clopper and E. S. Pearson (1934), The use of confidence or fiducial
// limits illustrated in the case of the binomial, Biometrika 26:404-413.
//
// The low limit of 0 of n is 0, the high limit of n of n is 1, and of 0 of 0
// the interval is [0, 1].
func ClopperPearson(x, n int, conf float64) Interval {
	Tally{x, n}.mustBeValid()
	mustBeProbability(conf, "confidence")
	tail := (1 - conf) / 2
	limits := whole
	a, b := float64(x), float64(n-x)
	if x > 0 {
		limits.Low = mathext.InvRegIncBeta(a, b+1, tail)
	}
	if x < n {
		limits.High = mathext.InvRegIncBeta(a+1, b, 1-tail)
	}
	return limits
}

// Jeffreys is the equal-tailed interval of the posterior
// Beta(x+1/2, n-x+1/2) that Jeffreys' prior gives, taken as it comes: the
// limits of 0 of n and n of n lie strictly within 0 and 1, and of 0 of 0 it
// is the interval of the prior.
//
// H. Jeffreys (1946), An invariant form for the prior probability in
// estimation problems, Proceedings of the Royal Society A 186:453-461.
func Jeffreys(x, n int, conf float64) Interval {
	Tally{x, n}.mustBeValid()
	mustBeProbability(conf, "confidence")
	return betaInterval(float64(x)+0.5, float64(n-x)+0.5, conf)
}

// JeffreysAdjusted is the Jeffreys interval with the low limit of 0 of n set
// to 0 and the high limit of n of n set to 1, as L. D. Brown, T. T. Cai and
// A. DasGupta (2001), Interval estimation for a binomial proportion,
// Statistical Science 16:101-133, advise. Of 0 of 0 it is [0, 1].
func JeffreysAdjusted(x, n int, conf float64) Interval {
	limits := Jeffreys(x, n, conf)
	if x == 0 {
		limits.Low = 0
	}
	if x == n {
		limits.High = 1
	}
	return limits
}

// betaInterval is the equal-tailed interval of Beta(a, b).
func betaInterval(a, b, conf float64) Interval {
	tail := (1 - conf) / 2
	return Interval{
		mathext.InvRegIncBeta(a, b, tail),
		mathext.InvRegIncBeta(a, b, 1-tail),
	}
}

// normalQuantile is the z of a two-sided interval: 1.96 for 0.95.
func normalQuantile(conf float64) float64 {
	mustBeProbability(conf, "confidence")
	return mathext.NormalQuantile((1 + conf) / 2)
}
