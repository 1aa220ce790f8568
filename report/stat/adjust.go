package stat

import (
	"cmp"
	"fmt"
	"slices"
)

// The adjustments below take the p-values of a family of tests and give one
// adjusted p-value for each, in the order given, never above 1. An adjusted
// p below 0.05 is a finding at the 5 % level of the whole family.

// Bonferroni multiplies each of m p-values by m. It bounds the chance of any
// false finding, whatever the tests.
func Bonferroni(p []float64) []float64 {
	return adjust(p, func(rank, m int) float64 { return float64(m) }, fromSmallest)
}

// Holm steps down from the smallest: the i-th smallest of m is multiplied by
// m-i+1, and none falls below the one before. It bounds the chance of any
// false finding, whatever the tests, and is never worse than Bonferroni.
//
// S. Holm (1979), A simple sequentially rejective multiple test procedure,
// Scandinavian Journal of Statistics 6:65-70.
func Holm(p []float64) []float64 {
	return adjust(p, func(rank, m int) float64 { return float64(m - rank) }, fromSmallest)
}

// Hochberg steps up with Holm's factors: the i-th smallest of m is multiplied
// by m-i+1, and none exceeds the one after. It bounds the chance of any false
// finding when the tests are independent.
//
// Y. Hochberg (1988), A sharper Bonferroni procedure for multiple tests of
// significance, Biometrika 75:800-802.
func Hochberg(p []float64) []float64 {
	return adjust(p, func(rank, m int) float64 { return float64(m - rank) }, fromLargest)
}

// BenjaminiHochberg bounds the expected share of false findings among the
// findings: the i-th smallest of m is multiplied by m/i, and none exceeds the
// one after.
//
// Y. Benjamini and Y. Hochberg (1995), Controlling the false discovery rate,
// Journal of the Royal Statistical Society B 57:289-300.
func BenjaminiHochberg(p []float64) []float64 {
	return adjust(p, func(rank, m int) float64 { return float64(m) / float64(rank+1) }, fromLargest)
}

// direction is the end from which adjusted p-values are kept in order.
type direction int

const (
	fromSmallest direction = iota // none below the one before
	fromLargest                   // none above the one after
)

// adjust multiplies the p-value of each rank, 0 for the smallest, by its
// factor and keeps the products in order.
func adjust(p []float64, factor func(rank, m int) float64, from direction) []float64 {
	m := len(p)
	order := make([]int, m)
	for i, v := range p {
		if !(v >= 0 && v <= 1) {
			panic(fmt.Sprintf("stat: %v is no p-value", v))
		}
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(p[a], p[b]) })
	adjusted := make([]float64, m)
	for rank, i := range order {
		adjusted[i] = min(1, factor(rank, m)*p[i])
	}
	for rank := 1; rank < m; rank++ {
		if from == fromSmallest {
			i, before := order[rank], order[rank-1]
			adjusted[i] = max(adjusted[i], adjusted[before])
		} else {
			i, after := order[m-1-rank], order[m-rank]
			adjusted[i] = min(adjusted[i], adjusted[after])
		}
	}
	return adjusted
}
