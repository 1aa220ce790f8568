package stat

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// tieSlack is how far below the wanted assurance a chance may come out and
// still count as reaching it: where both are equal in exact arithmetic,
// floats may fall on either side.
const tieSlack = 1e-12

// BinomialAtLeast is the chance of k successes or more in n trials of chance
// p, the regularised incomplete beta function I_p(k, n-k+1).
//
// M. Abramowitz and I. A. Stegun (1964), Handbook of Mathematical Functions,
// 26.5.24.
func BinomialAtLeast(k, n int, p float64) float64 {
	mustBeTrials(n, p)
	switch {
	case k <= 0:
		return 1
	case k > n:
		return 0
	}
	return mathext.RegIncBeta(float64(k), float64(n-k+1), p)
}

// BinomialSure is the largest count that n trials of chance p reach or pass
// with chance sure: what can be promised of them. A chance that equals sure
// exactly is enough.
func BinomialSure(n int, p, sure float64) int {
	mustBeTrials(n, p)
	mustBeProbability(sure, "assurance")
	return lastCount(n, func(k int) bool { return BinomialAtLeast(k, n, p) >= sure-tieSlack })
}

// TrialsFor is the smallest number of trials of chance p that give k
// successes or more with chance sure. A chance that equals sure exactly is
// enough. ok is false where no number up to a thousand million does, as with
// p of 0.
func TrialsFor(k int, p, sure float64) (n int, ok bool) {
	mustBeTrials(k, p)
	mustBeProbability(sure, "assurance")
	return firstEnough(k, func(n int) bool { return BinomialAtLeast(k, n, p) >= sure-tieSlack })
}

// TrialsForUncertain is TrialsFor where the chance itself is known only as
// Beta(alpha, beta), as after a past season: alpha is its successes and beta
// its failures, each with what the prior adds. It allows for the next season
// being another season: all its trials share one chance.
//
// ok is false where no number up to a thousand million gives the assurance,
// which a beta law close to 0 can ask for.
func TrialsForUncertain(k int, alpha, beta, sure float64) (n int, ok bool) {
	mustBeProbability(sure, "assurance")
	if k < 0 {
		panic("stat: fewer than no successes wanted")
	}
	// However many the trials, the chance stays below that of the rate being
	// k in a thousand million or more: no need to search what is out of reach.
	if mathext.RegIncBeta(alpha, beta, min(1, float64(k)/mostTrials)) > 1-sure+tieSlack {
		return 0, false
	}
	return firstEnough(k, func(n int) bool {
		return BetaBinomial{alpha, beta, n}.AtLeast(k) >= sure-tieSlack
	})
}

// mostTrials bounds every search for a number of trials.
const mostTrials = 1e9

// firstEnough is the smallest n from k up for which enough holds, given that
// it holds for all larger ones too.
func firstEnough(k int, enough func(n int) bool) (n int, ok bool) {
	if k == 0 {
		return 0, true
	}
	low, high := k-1, k // enough fails at low
	for !enough(high) {
		low, high = high, 2*high
		if high > mostTrials {
			return 0, false
		}
	}
	for high-low > 1 {
		middle := low + (high-low)/2
		if enough(middle) {
			high = middle
		} else {
			low = middle
		}
	}
	return high, true
}

// lastCount is the largest k up to n for which reached holds, given that it
// holds for 0 and for all smaller ones too.
func lastCount(n int, reached func(k int) bool) int {
	low, high := 0, n+1 // reached at low, not at high
	for high-low > 1 {
		middle := low + (high-low)/2
		if reached(middle) {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

func mustBeTrials(n int, p float64) {
	if n < 0 || math.IsNaN(p) || p < 0 || p > 1 {
		panic("stat: a negative count, or a chance outside 0 to 1")
	}
}
