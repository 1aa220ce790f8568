package stat

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mathext"
)

// BetaBinomial is the law of the successes among N trials that share one
// chance, itself drawn from Beta(Alpha, Beta).
//
// J. G. Skellam (1948), A probability distribution derived from the binomial
// distribution by regarding the probability of success as variable between
// the sets of trials, Journal of the Royal Statistical Society B 10:257-261.
type BetaBinomial struct {
	Alpha, Beta float64
	N           int
}

// Prob is the chance of exactly k successes, 0 outside 0 to N.
func (d BetaBinomial) Prob(k int) float64 {
	return math.Exp(d.logProb(k))
}

// logProb is the logarithm of C(N,k) B(k+Alpha, N-k+Beta) / B(Alpha, Beta).
func (d BetaBinomial) logProb(k int) float64 {
	d.mustBeValid()
	if k < 0 || k > d.N {
		return math.Inf(-1)
	}
	n, x := float64(d.N), float64(k)
	return -math.Log(n+1) - mathext.Lbeta(n-x+1, x+1) +
		mathext.Lbeta(x+d.Alpha, n-x+d.Beta) - mathext.Lbeta(d.Alpha, d.Beta)
}

// AtMost is the chance of k successes or fewer.
func (d BetaBinomial) AtMost(k int) float64 {
	return 1 - d.AtLeast(k+1)
}

// AtLeast is the chance of k successes or more. It adds up the shorter tail.
func (d BetaBinomial) AtLeast(k int) float64 {
	d.mustBeValid()
	switch {
	case k <= 0:
		return 1
	case k > d.N:
		return 0
	case k > d.N/2:
		turned := BetaBinomial{Alpha: d.Beta, Beta: d.Alpha, N: d.N}
		return turned.lowerTail(d.N - k)
	}
	return 1 - d.lowerTail(k-1)
}

// lowerTail is the chance of k or fewer, from k downwards by the ratio of
// neighbours. The logarithms keep a term that underflows from hiding larger
// ones below it.
func (d BetaBinomial) lowerTail(k int) float64 {
	n := float64(d.N)
	logTerm := d.logProb(k)
	sum := math.Exp(logTerm)
	for x := float64(k); x > 0; x-- {
		logTerm += math.Log(x * (n - x + d.Beta) / ((n - x + 1) * (x - 1 + d.Alpha)))
		sum += math.Exp(logTerm)
	}
	return min(1, sum)
}

// Sure is the largest count that is reached or passed with chance sure.
func (d BetaBinomial) Sure(sure float64) int {
	d.mustBeValid()
	mustBeProbability(sure, "assurance")
	return lastCount(d.N, func(k int) bool { return d.AtLeast(k) >= sure-tieSlack })
}

func (d BetaBinomial) mustBeValid() {
	if !(d.Alpha > 0 && d.Beta > 0) || d.N < 0 {
		panic(fmt.Sprintf("stat: no beta-binomial law has shape %v, %v and %d trials", d.Alpha, d.Beta, d.N))
	}
}
