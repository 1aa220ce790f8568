package money

import (
	"cmp"
	"math/bits"
	"slices"

	"github.com/cockroachdb/apd/v3"
)

// Allocate splits a total by weights, such as the plant-days of lots, in steps
// of so many decimals: the currency's [Minor] for figures to be shown, [Guard]
// for costs still on their way. Each part is the whole steps in its exact
// share; what that leaves over goes out step by step to the largest remainders,
// at a tie to the earlier weight (the largest-remainder rule, A. Hamilton 1792).
// Money finer than a step goes to the next in that order. A negative total is
// split as its opposite is.
//
// Parts and unallocated always add up to total exactly. Unallocated is nought,
// unless there is nothing to split by: where no weight is above 0, or one is
// below, every part is nought and the whole total is unallocated.
func Allocate(total Amount, weights []int64, places int) (parts []Amount, unallocated Amount) {
	parts = make([]Amount, len(weights))
	if len(weights) == 0 || slices.Min(weights) < 0 || slices.Max(weights) == 0 {
		return parts, total
	}
	if total.Sign() < 0 {
		allocate(parts, total.Neg(), weights, stepAt(places))
		for i, part := range parts {
			parts[i] = part.Neg()
		}
		return parts, Amount{}
	}
	allocate(parts, total, weights, stepAt(places))
	return parts, Amount{}
}

// allocate fills parts. Total is not negative, nor is any weight, and one is
// above 0.
func allocate(parts []Amount, total Amount, weights []int64, step int64) {
	var sum, carry uint64
	for _, w := range weights {
		if sum, carry = bits.Add64(sum, uint64(w), 0); carry != 0 {
			break
		}
	}
	if carry == 0 && total.narrow() {
		allocateNarrow(parts, uint64(total.nano), weights, sum, uint64(step))
	} else {
		allocateWide(parts, total, weights, step)
	}
}

// allocateNarrow is for totals and sums of weights that fit 64 bits.
func allocateNarrow(parts []Amount, total uint64, weights []int64, sum, step uint64) {
	type rest struct{ nano, part uint64 } // part of a thousand-millionth, in parts of sum
	rests := make([]ranked[rest], len(weights))
	left := total
	for i, w := range weights {
		hi, lo := bits.Mul64(total, uint64(w))
		share, part := bits.Div64(hi, lo, sum) // w <= sum, so hi < sum
		rests[i] = ranked[rest]{i, rest{share % step, part}}
		share -= share % step
		left -= share
		parts[i].nano = int64(share)
	}
	handOut(parts, Amount{nano: int64(left)}, int64(step), rests, func(a, b rest) int {
		if c := cmp.Compare(a.nano, b.nano); c != 0 {
			return c
		}
		return cmp.Compare(a.part, b.part)
	})
}

// allocateWide is for any totals and weights.
func allocateWide(parts []Amount, total Amount, weights []int64, step int64) {
	var per apd.BigInt // a remainder counts in parts of the weights' sum
	for _, w := range weights {
		per.Add(&per, apd.NewBigInt(w))
	}
	per.Mul(&per, apd.NewBigInt(step))
	rests := make([]ranked[*apd.BigInt], len(weights))
	left := total
	for i, w := range weights {
		share, rest := new(apd.BigInt).Mul(total.big(), apd.NewBigInt(w)), new(apd.BigInt)
		share.QuoRem(share, &per, rest)
		rests[i] = ranked[*apd.BigInt]{i, rest}
		parts[i] = fromBig(share.Mul(share, apd.NewBigInt(step)))
		left = left.Sub(parts[i])
	}
	handOut(parts, left, step, rests, (*apd.BigInt).Cmp)
}

// ranked is what rounding down took from the part with an index.
type ranked[R any] struct {
	index int
	rest  R
}

// handOut adds what is left to parts, one step each, the largest rest first and
// at a tie the first of them. It reorders rests.
func handOut[R any](parts []Amount, left Amount, step int64, rests []ranked[R], compare func(a, b R) int) {
	if left == (Amount{}) {
		return
	}
	slices.SortFunc(rests, func(a, b ranked[R]) int {
		if c := compare(b.rest, a.rest); c != 0 {
			return c
		}
		return cmp.Compare(a.index, b.index)
	})
	for _, r := range rests {
		give := Amount{nano: step}
		if left.Cmp(give) < 0 {
			give = left
		}
		parts[r.index], left = parts[r.index].Add(give), left.Sub(give)
	}
}
