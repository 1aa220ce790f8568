package stat

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
)

// runLength is how many samples in a row on one side of the centre signal:
// the fourth zone test of Western Electric Company (1956), Statistical
// Quality Control Handbook, page 25.
const runLength = 8

// PChart is a control chart of the rates of samples that may differ in size.
type PChart struct {
	Centre  float64 // the pooled rate
	Points  []ChartPoint
	Signals []Signal
}

// ChartPoint is one sample on a chart. Low and High are its limits, three
// standard errors from the centre and within 0 and 1; Z is how many standard
// errors it lies from the centre.
type ChartPoint struct {
	Tally
	Low, High, Z float64
}

// Signal is a stretch of samples, First to Last by index, that chance alone
// seldom gives.
type Signal struct {
	Kind        SignalKind
	First, Last int
}

// SignalKind says by which rule a signal was found.
type SignalKind int

const (
	AboveLimit SignalKind = iota // one sample above its limit
	BelowLimit                   // one sample below its limit
	RunAbove                     // eight samples or more in a row above the centre
	RunBelow                     // eight samples or more in a row below it
)

// NewPChart draws up the chart of samples in order of time: centre p, the
// pooled rate, and limits p ± 3 sqrt(p(1-p)/N).
//
// W. A. Shewhart (1931), Economic Control of Quality of Manufactured Product;
// NIST/SEMATECH e-Handbook of Statistical Methods, section 6.3.3.2.
//
// A sample without trials has limits 0 and 1 and neither signals nor breaks a
// run; one exactly at the centre breaks it. Where every trial had the same
// outcome, all limits are at the centre and nothing signals.
func NewPChart(samples []Tally) PChart {
	p := Pool(samples).Rate()
	chart := PChart{Centre: p}
	for i, sample := range samples {
		sample.mustBeValid()
		point := ChartPoint{Tally: sample, High: 1}
		if sample.N > 0 {
			se := math.Sqrt(p * (1 - p) / float64(sample.N))
			point.Low, point.High = max(0, p-3*se), min(1, p+3*se)
			if se > 0 {
				point.Z = (sample.Rate() - p) / se
			}
			if point.Z > 3 {
				chart.Signals = append(chart.Signals, Signal{AboveLimit, i, i})
			}
			if point.Z < -3 {
				chart.Signals = append(chart.Signals, Signal{BelowLimit, i, i})
			}
		}
		chart.Points = append(chart.Points, point)
	}
	chart.Signals = append(chart.Signals, runs(chart.Points)...)
	return chart
}

// runs finds the longest stretches of runLength points or more on one side.
func runs(points []ChartPoint) []Signal {
	var found []Signal
	var current Signal
	side, length := 0.0, 0
	end := func() {
		if length >= runLength {
			found = append(found, current)
		}
		length = 0
	}
	for i, point := range points {
		if point.N == 0 {
			continue
		}
		here := 0.0
		if point.Z != 0 {
			here = math.Copysign(1, point.Z)
		}
		if here != side {
			end()
			side = here
		}
		if side == 0 {
			continue
		}
		if length == 0 {
			current = Signal{RunAbove, i, i}
			if side < 0 {
				current.Kind = RunBelow
			}
		}
		current.Last = i
		length++
	}
	end()
	return found
}

// CusumReference is the reference value of a Bernoulli cumulative sum that is
// to tell failure rate bad from failure rate good, good below bad:
//
//	log((1-good)/(1-bad)) / log(bad(1-good)/(good(1-bad)))
//
// M. R. Reynolds and Z. G. Stoumbos (1999), A CUSUM chart for monitoring a
// proportion when inspecting continuously, Journal of Quality Technology
// 31:87-108.
func CusumReference(good, bad float64) float64 {
	mustBeProbability(good, "failure rate")
	mustBeProbability(bad, "failure rate")
	if good >= bad {
		panic("stat: the good failure rate is not below the bad one")
	}
	return math.Log((1-good)/(1-bad)) / math.Log(bad*(1-good)/(good*(1-bad)))
}

// Cusum is the path of the cumulative sum of failures over a reference value:
// from 0, each batch adds its failures (X) less reference times its trials,
// and the sum never falls below 0. A path that reaches the limit chosen
// signals that the failure rate has gone bad.
func Cusum(batches []Tally, reference float64) []float64 {
	path := make([]float64, len(batches))
	sum := 0.0
	for i, batch := range batches {
		batch.mustBeValid()
		sum = max(0, sum+float64(batch.X)-float64(batch.N)*reference)
		path[i] = sum
	}
	return path
}

// CusumRunLength is the mean number of single trials until a cumulative sum
// with reference value over/under reaches limit, when trials fail at the
// given rate: how often it gives false alarm, if the rate is the good one. It
// solves the Markov chain of the sum in steps of 1/under exactly, so under
// times limit wants to stay below a few thousand.
//
// D. Brook and D. A. Evans (1972), An approach to the probability
// distribution of cusum run length, Biometrika 59:539-549.
//
// ok is false where the sum never reaches the limit.
func CusumRunLength(rate float64, over, under, limit int) (mean float64, ok bool) {
	if over <= 0 || over >= under || limit <= 0 {
		panic(fmt.Sprintf("stat: no cumulative sum has reference %d/%d and limit %d", over, under, limit))
	}
	states := under * limit
	moves := mat.NewDense(states, states, nil)
	ones := mat.NewVecDense(states, nil)
	add := func(from, to int, chance float64) {
		if to < states {
			moves.Set(from, to, moves.At(from, to)-chance)
		}
	}
	for s := range states {
		ones.SetVec(s, 1)
		moves.Set(s, s, 1)
		add(s, s+under-over, rate)
		add(s, max(0, s-over), 1-rate)
	}
	var lengths mat.VecDense
	if err := lengths.SolveVec(moves, ones); err != nil {
		return 0, false
	}
	return lengths.AtVec(0), true
}
