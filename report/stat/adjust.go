package stat

import (
	"cmp"
	"fmt"
	"slices"
)

// Holm takes the p-values of a family of tests and gives one adjusted p-value
// for each, in the order given: the i-th smallest of m is multiplied by m-i+1,
// and none falls below the one before, nor rises above 1. An adjusted p below
// 0.05 is a finding at the 5 % level of the whole family, whatever the tests.
//
// S. Holm (1979), A simple sequentially rejective multiple test procedure,
// Scandinavian Journal of Statistics 6:65-70.
func Holm(p []float64) []float64 {
	order := make([]int, len(p))
	for i, v := range p {
		if !(v >= 0 && v <= 1) {
			panic(fmt.Sprintf("stat: %v is no p-value", v))
		}
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(p[a], p[b]) })
	adjusted := make([]float64, len(p))
	before := 0.0
	for rank, i := range order {
		before = max(before, min(1, float64(len(p)-rank)*p[i]))
		adjusted[i] = before
	}
	return adjusted
}
