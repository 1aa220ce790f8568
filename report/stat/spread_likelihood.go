package stat

import (
	"cmp"
	"maps"
	"math"
	"slices"

	"gonum.org/v1/gonum/mathext"
)

// spreadLikelihood is the log likelihood of mean m and t = rho/(1-rho), but
// for a constant,
//
//	sum_r A(r) log(m+rt) + sum_r B(r) log(1-m+rt) - sum_r C(r) log(1+rt)
//
// with A, B and C the numbers of groups whose successes, failures and trials
// exceed r.
type spreadLikelihood struct {
	successes, failures, trials []exceeding
	mixed                       bool    // some group has both outcomes
	shareOfFull                 float64 // of the groups with trials, those all success
	constant                    float64 // the logarithms of the binomial coefficients
}

// exceeding is a run of counts r, up to but without end, that the same number
// of groups exceed. A run starts where the one before ends.
type exceeding struct {
	end    int
	groups float64
}

func newSpreadLikelihood(groups []Tally) *spreadLikelihood {
	alike := map[Tally]int{}
	for _, g := range groups {
		g.mustBeValid()
		if g.N > 0 {
			alike[g]++
		}
	}
	l := &spreadLikelihood{}
	xs, ys, ns := map[int]int{}, map[int]int{}, map[int]int{}
	full, some := 0, 0
	// In order, so that the same groups always add up to the same float.
	for _, g := range slices.SortedFunc(maps.Keys(alike), compareTallies) {
		count, x, y := alike[g], g.X, g.N-g.X
		xs[x] += count
		ys[y] += count
		ns[g.N] += count
		some += count
		if y == 0 {
			full += count
		}
		if x > 0 && y > 0 {
			l.mixed = true
		}
		l.constant -= float64(count) * (math.Log(float64(g.N+1)) + mathext.Lbeta(float64(x+1), float64(y+1)))
	}
	if some > 0 {
		l.shareOfFull = float64(full) / float64(some)
	}
	l.successes, l.failures, l.trials = exceedings(xs), exceedings(ys), exceedings(ns)
	return l
}

func compareTallies(a, b Tally) int {
	return cmp.Or(cmp.Compare(a.N, b.N), cmp.Compare(a.X, b.X))
}

// exceedings turns how many groups have each value into runs.
func exceedings(groupsOf map[int]int) []exceeding {
	left := 0
	for _, groups := range groupsOf {
		left += groups
	}
	var runs []exceeding
	for _, value := range slices.Sorted(maps.Keys(groupsOf)) {
		if value > 0 {
			runs = append(runs, exceeding{end: value, groups: float64(left)})
		}
		left -= groupsOf[value]
	}
	return runs
}

// overRuns adds up f of every count r, weighted by the groups that exceed it.
func overRuns(runs []exceeding, f func(r float64) float64) float64 {
	var total float64
	start := 0
	for _, run := range runs {
		var sum float64
		for r := start; r < run.end; r++ {
			sum += f(float64(r))
		}
		total += run.groups * sum
		start = run.end
	}
	return total
}

// at is the log likelihood, constant included.
func (l *spreadLikelihood) at(mean, rho float64) float64 {
	if rho == 1 {
		full, empty := 0.0, 0.0
		if len(l.successes) > 0 {
			full = l.successes[0].groups
		}
		if len(l.failures) > 0 {
			empty = l.failures[0].groups
		}
		return full*math.Log(mean) + empty*math.Log1p(-mean)
	}
	t := rho / (1 - rho)
	return l.constant +
		overRuns(l.successes, func(r float64) float64 { return math.Log(mean + r*t) }) +
		overRuns(l.failures, func(r float64) float64 { return math.Log(1 - mean + r*t) }) -
		overRuns(l.trials, func(r float64) float64 { return math.Log1p(r * t) })
}

// slope is the derivative of the log likelihood by t.
func (l *spreadLikelihood) slope(mean, t float64) float64 {
	return overRuns(l.successes, func(r float64) float64 { return r / (mean + r*t) }) +
		overRuns(l.failures, func(r float64) float64 { return r / (1 - mean + r*t) }) -
		overRuns(l.trials, func(r float64) float64 { return r / (1 + r*t) })
}

// bestMean is the mean of the highest likelihood at t, by Newton's steps from
// start. The likelihood is concave in the mean; a step that would leave 0 to
// 1 goes halfway to the end instead.
func (l *spreadLikelihood) bestMean(start, t float64) float64 {
	mean := start
	for range 200 {
		slope := overRuns(l.successes, func(r float64) float64 { return 1 / (mean + r*t) }) -
			overRuns(l.failures, func(r float64) float64 { return 1 / (1 - mean + r*t) })
		bend := overRuns(l.successes, func(r float64) float64 { return 1 / ((mean + r*t) * (mean + r*t)) }) +
			overRuns(l.failures, func(r float64) float64 { return 1 / ((1 - mean + r*t) * (1 - mean + r*t)) })
		next := mean + slope/bend
		if next <= 0 {
			next = mean / 2
		}
		if next >= 1 {
			next = (1 + mean) / 2
		}
		if math.Abs(next-mean) <= 1e-14*mean {
			return next
		}
		mean = next
	}
	return mean
}

// maximise finds the mean and rho of the highest likelihood, by the sign of
// its slope along the best means.
func (l *spreadLikelihood) maximise(start float64) (mean, rho float64) {
	mean = start
	downhill := func(logT float64) float64 {
		t := math.Exp(logT)
		mean = l.bestMean(mean, t)
		return -l.slope(mean, t)
	}
	logT, _ := crossing(downhill, -3, 1)
	t := math.Exp(logT)
	return l.bestMean(mean, t), t / (1 + t)
}
