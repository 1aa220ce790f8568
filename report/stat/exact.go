package stat

import "math"

// FisherTest holds the three exact p-values of a two by two table. Less is
// the chance of a table in which a fares as badly as seen or worse, Greater
// of one in which it fares as well or better.
type FisherTest struct {
	TwoSided, Less, Greater float64
}

// Fisher is the exact test that two groups share one rate, given both
// margins. The two-sided p adds up all tables that are no likelier than the
// one seen, with a slack of one part in ten million for ties, as the function
// fisher.test of R has it. Tables without information (an empty group, or
// one outcome only) give 1. Chances below the smallest float are 0.
//
// R. A. Fisher (1935), The logic of inductive inference, Journal of the Royal
// Statistical Society 98:39-82.
func Fisher(a, b Tally) FisherTest {
	h := newHypergeometric(a, b)
	seen := h.logWeight[a.X-h.low] + 1e-7
	var test FisherTest
	var total float64
	for i, lw := range h.logWeight {
		w := math.Exp(lw)
		total += w
		if lw <= seen {
			test.TwoSided += w
		}
		if i <= a.X-h.low {
			test.Less += w
		}
		if i >= a.X-h.low {
			test.Greater += w
		}
	}
	test.TwoSided = min(1, test.TwoSided/total)
	test.Less = min(1, test.Less/total)
	test.Greater = min(1, test.Greater/total)
	return test
}

// hypergeometric is the law of a's successes given both margins of a table,
// as logarithms of weights from the lowest possible count upwards, the
// likeliest being 0.
type hypergeometric struct {
	low       int
	logWeight []float64
}

func newHypergeometric(a, b Tally) hypergeometric {
	a.mustBeValid()
	b.mustBeValid()
	successes := a.X + b.X
	low, high := max(0, successes-b.N), min(a.N, successes)
	h := hypergeometric{low: low, logWeight: make([]float64, high-low+1)}
	// Ratios of neighbours, from the mode outwards, keep more digits than
	// differences of log factorials do.
	logRatio := func(k int) float64 { // of k+1 to k
		return math.Log(float64(a.N-k)) + math.Log(float64(successes-k)) -
			math.Log(float64(k+1)) - math.Log(float64(b.N-successes+k+1))
	}
	mode := int(float64(a.N+1) * float64(successes+1) / float64(a.N+b.N+2))
	mode = min(max(mode, low), high)
	for k := mode; k < high; k++ {
		h.logWeight[k+1-low] = h.logWeight[k-low] + logRatio(k)
	}
	for k := mode - 1; k >= low; k-- {
		h.logWeight[k-low] = h.logWeight[k+1-low] - logRatio(k)
	}
	return h
}
