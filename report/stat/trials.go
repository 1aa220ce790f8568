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

func mustBeTrials(n int, p float64) {
	if n < 0 || math.IsNaN(p) || p < 0 || p > 1 {
		panic("stat: a negative count, or a chance outside 0 to 1")
	}
}
