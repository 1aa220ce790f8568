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

// normalQuantile is the z of a two-sided interval: 1.96 for 0.95.
func normalQuantile(conf float64) float64 {
	mustBeProbability(conf, "confidence")
	return mathext.NormalQuantile((1 + conf) / 2)
}
