package stat

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mathext"
)

// Outlook is the beta law, of shape Alpha and Beta, of the share that will
// succeed in a season to come.
type Outlook struct {
	Alpha, Beta float64
}

// Mean is the share to be expected.
func (o Outlook) Mean() float64 { return o.Alpha / (o.Alpha + o.Beta) }

// Foresee is the outlook after some seasons, each a list of lots. Every season
// has a chance of its own, drawn from one beta law, and the lots of a season
// differ about it as [BetweenLots] finds. Of the law's mean nothing is known
// beforehand; the sum of its two shapes is taken to lie between 20 and 2000, any
// factor as likely as another of its size: at a share of 80 % seasons then
// differ with a standard deviation of 1 to 9 points (common practice, no
// source), and few seasons can't pretend to have seen more. Both are integrated
// out on a grid, and the outlook has the mean and the variance of what that
// leaves.
//
// A. Gelman et al. (2013), Bayesian Data Analysis, 3rd edition, section 5.3, for
// the integration. ok is false where nothing is known at all.
func Foresee(seasons [][]Tally) (o Outlook, ok bool) {
	between := BetweenLots(seasons...)
	var seen []effective
	lotShare := 0.0 // of the trials of a season, squared and added up: 1 where a season is one lot
	for _, lots := range seasons {
		pool := Pool(lots)
		if pool.N == 0 {
			continue
		}
		d := between.Widening(lots).Factor
		seen = append(seen, effective{float64(pool.X) / d, float64(pool.N-pool.X) / d})
		for _, l := range lots {
			lotShare += float64(l.N) / float64(pool.N) * float64(l.N) / float64(pool.N)
		}
	}
	if len(seen) == 0 {
		return Outlook{}, false
	}
	mean, variance := foreseen(seen)
	// What is spread over seasons can't be spread over lots as well.
	variance += (mean*(1-mean) - variance) * between.Rho() * lotShare / float64(len(seen))
	weight := max(mean*(1-mean)/variance-1, leastOutlook)
	return Outlook{mean * weight, (1 - mean) * weight}, true
}

// leastOutlook is the least that an outlook is worth, in trials: lots that are
// all or nothing leave no beta law, and, as in [Spread.DrawnIn], one trial is
// meant.
const leastOutlook = 1

// effective is a season's successes and failures, over their design effect.
type effective struct{ x, y float64 }

// foreseen integrates the mean and the weight of the law of seasons out, on a
// grid that closes in on where the mean lies.
func foreseen(seen []effective) (mean, variance float64) {
	const passes = 3
	low, high := 0.0, 1.0
	for range passes {
		var spread float64
		mean, spread, variance = integrated(seen, low, high)
		reach := max(6*spread, 2*(high-low)/gridMeans)
		low, high = max(0, mean-reach), min(1, mean+reach)
	}
	return mean, variance
}

const (
	gridMeans, gridWeights  = 32, 10
	leastWeight, mostWeight = 20, 2000 // of the law of seasons
)

// integrated gives the mean of the next season's chance, the standard deviation
// of the law's own mean, and the variance of that chance, on one grid.
func integrated(seen []effective, low, high float64) (mean, spread, variance float64) {
	at := func(i int) (m, w float64) {
		m = low + (high-low)*(float64(i%gridMeans)+0.5)/gridMeans
		return m, leastWeight * math.Pow(mostWeight/leastWeight, (float64(i/gridMeans)+0.5)/gridWeights)
	}
	logs := make([]float64, gridMeans*gridWeights)
	for i := range logs {
		m, w := at(i)
		for _, e := range seen {
			logs[i] += mathext.Lbeta(e.x+m*w, e.y+(1-m)*w) - mathext.Lbeta(m*w, (1-m)*w)
		}
	}
	most := slices.Max(logs)
	var total, first, second, within float64
	for i, l := range logs {
		m, w := at(i)
		p := math.Exp(l - most)
		total += p
		first += p * m
		second += p * m * m
		within += p * m * (1 - m) / (w + 1)
	}
	mean = first / total
	between := max(second/total-mean*mean, 0)
	return mean, math.Sqrt(between), between + within/total
}
