package money_test

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"github.com/budstick/budstick/report/money"
)

// hamilton is the rule of largest remainders as its definition says, in
// rationals: floors first, then one step each by remainder and input order. The
// total must be whole in steps.
func hamilton(total *big.Rat, weights []int64, places int) []*big.Rat {
	sum := new(big.Rat)
	for _, w := range weights {
		sum.Add(sum, new(big.Rat).SetInt64(w))
	}
	parts, rests := make([]*big.Rat, len(weights)), make([]*big.Rat, len(weights))
	order := make([]int, len(weights))
	left := new(big.Rat).Set(total)
	for i, w := range weights {
		quota := new(big.Rat).Mul(total, new(big.Rat).SetInt64(w))
		quota.Quo(quota, sum)
		parts[i] = steps(floorSteps(quota, places), places)
		rests[i] = new(big.Rat).Sub(quota, parts[i])
		left.Sub(left, parts[i])
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return rests[j].Cmp(rests[i]) })
	for _, i := range order {
		if left.Sign() == 0 {
			break
		}
		parts[i].Add(parts[i], grain(places))
		left.Sub(left, grain(places))
	}
	return parts
}

func drawWeights(t *rapid.T) []int64 {
	one := rapid.OneOf(rapid.Int64Range(0, 3), rapid.Int64Range(0, 1_000_000), rapid.Int64Range(0, 1<<63-1))
	weights := rapid.SliceOfN(one, 1, 12).Draw(t, "weights")
	if slices.Max(weights) == 0 {
		weights[0] = 1
	}
	return weights
}

func TestAllocateByDefinition(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		places := rapid.IntRange(0, money.Guard).Draw(t, "places")
		total := amounts().Draw(t, "total").Round(places, money.Down)
		weights := drawWeights(t)
		parts, unallocated := money.Allocate(total, weights, places)
		if unallocated != (money.Amount{}) {
			t.Fatalf("%s is unallocated", unallocated)
		}
		want := hamilton(new(big.Rat).Abs(rat(total)), weights, places)
		for i, part := range parts {
			if total.Sign() < 0 {
				want[i].Neg(want[i])
			}
			same(t, fmt.Sprint("part ", i), part, want[i])
		}
	})
}

// TestAllocateAnyTotal holds also where the total is finer than the steps: all
// of it is given out, no part is a step off its quota, a larger weight never
// gets less, and no weight gets nothing.
func TestAllocateAnyTotal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		places := rapid.IntRange(0, money.Guard).Draw(t, "places")
		total, weights := amounts().Draw(t, "total"), drawWeights(t)
		parts, unallocated := money.Allocate(total, weights, places)
		if money.Sum(parts...).Add(unallocated) != total || unallocated != (money.Amount{}) {
			t.Fatalf("%s became %s", total, money.Sum(parts...))
		}
		sum := new(big.Rat)
		for _, w := range weights {
			sum.Add(sum, new(big.Rat).SetInt64(w))
		}
		for i, w := range weights {
			off := new(big.Rat).Mul(rat(total), new(big.Rat).SetInt64(w))
			off.Sub(off.Quo(off, sum), rat(parts[i]))
			if off.Abs(off).Cmp(grain(places)) >= 0 {
				t.Fatalf("part %d is %s, off by %s", i, parts[i], off.FloatString(9))
			}
			if w == 0 && parts[i] != (money.Amount{}) {
				t.Fatalf("weight 0 got %s", parts[i])
			}
			for j, v := range weights {
				if w > v && parts[i].Cmp(parts[j])*cmp.Or(total.Sign(), 1) < 0 {
					t.Fatalf("weight %d got %s, but %d got %s", w, parts[i], v, parts[j])
				}
			}
		}
	})
}

// TestAllocateScale: weights of any size split alike, so those whose sum passes
// 64 bits go the same way as small ones.
func TestAllocateScale(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		small := rapid.SliceOfN(rapid.Int64Range(0, 1000), 1, 30).Draw(t, "weights")
		large := make([]int64, len(small))
		for i, w := range small {
			large[i] = w << 53
		}
		total := amounts().Draw(t, "total")
		a, restA := money.Allocate(total, small, 2)
		b, restB := money.Allocate(total, large, 2)
		if !slices.Equal(a, b) || restA != restB {
			t.Fatalf("%v and %v", a, b)
		}
	})
}

func TestAllocateNothingToSplitBy(t *testing.T) {
	for _, weights := range [][]int64{nil, {}, {0}, {0, 0, 0}, {5, -1}} {
		parts, unallocated := money.Allocate(amt(t, "10"), weights, 2)
		if unallocated != amt(t, "10") || money.Sum(parts...) != (money.Amount{}) || len(parts) != len(weights) {
			t.Errorf("by %v: %v, unallocated %s", weights, parts, unallocated)
		}
	}
}

func ExampleAllocate() {
	water, _ := money.Parse("100.00")
	plantDays := []int64{30, 30, 30}
	parts, unallocated := money.Allocate(water, plantDays, 2)
	fmt.Println(parts[0].Fixed(2), parts[1].Fixed(2), parts[2].Fixed(2), "left", unallocated)
	// Output: 33.34 33.33 33.33 left 0
}
