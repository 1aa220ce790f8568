package stat

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
)

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
