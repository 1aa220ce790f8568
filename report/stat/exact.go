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

// ConditionalOdds is the odds ratio of a over b that makes the count seen
// likeliest given both margins, and its exact limits at confidence conf: the
// ratios under which a count as high or higher, and as low or lower, has a
// chance of (1-conf)/2.
//
// J. Cornfield (1956), A statistical problem arising from retrospective
// studies, Proceedings of the Third Berkeley Symposium 4:135-148.
//
// At the lowest count that the margins allow, the estimate and its low limit
// are 0; at the highest, the estimate and the high limit +Inf. ok is false
// where the margins allow one table only: there is no estimate, and the
// limits are 0 and +Inf.
func ConditionalOdds(a, b Tally, conf float64) (ratio float64, limits Interval, ok bool) {
	mustBeProbability(conf, "confidence")
	h := newHypergeometric(a, b)
	limits = Interval{0, math.Inf(1)}
	if len(h.logWeight) == 1 {
		return 0, limits, false
	}
	at, tail := a.X-h.low, (1-conf)/2
	// Each solves an increasing function of the logarithm of the ratio.
	solve := func(f func(logRatio float64) float64) float64 {
		root, _ := crossing(f, 0, 1)
		return math.Exp(root)
	}
	if at > 0 {
		limits.Low = solve(func(l float64) float64 {
			_, _, above := h.tilted(l, at)
			return above - tail
		})
	}
	if at < len(h.logWeight)-1 {
		limits.High = solve(func(l float64) float64 {
			_, below, _ := h.tilted(l, at)
			return tail - below
		})
	}
	switch at {
	case 0:
		return 0, limits, true
	case len(h.logWeight) - 1:
		return math.Inf(1), limits, true
	}
	ratio = solve(func(l float64) float64 {
		mean, _, _ := h.tilted(l, at)
		return mean - float64(at)
	})
	return ratio, limits, true
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

// tilted is the mean of the counts (from the lowest) when the odds ratio has
// the given logarithm, the chance of at or fewer, and that of at or more.
func (h hypergeometric) tilted(logRatio float64, at int) (mean, below, above float64) {
	top := math.Inf(-1)
	for i, lw := range h.logWeight {
		top = max(top, lw+float64(i)*logRatio)
	}
	var total float64
	for i, lw := range h.logWeight {
		w := math.Exp(lw + float64(i)*logRatio - top)
		total += w
		mean += float64(i) * w
		if i <= at {
			below += w
		}
		if i >= at {
			above += w
		}
	}
	return mean / total, below / total, above / total
}
