package money_test

import (
	"fmt"
	"math/big"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"github.com/budstick/budstick/report/money"
)

// TestWornAddsUp: however the life of a thing is cut, the charges add up to its
// cost, none is negative, and each value is the exact one rounded.
func TestWornAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cost := newAmount(t, rapid.Int64Range(0, 1<<62).Draw(t, "cost"), rapid.IntRange(0, 9).Draw(t, "decimals"))
		life := rapid.Int64Range(1, 20_000).Draw(t, "life")
		cuts := append(rapid.SliceOf(rapid.Int64Range(0, life)).Draw(t, "cuts"), life)
		slices.Sort(cuts)
		var before money.Amount
		for _, used := range cuts {
			worn := money.Worn(cost, used, life)
			exact := new(big.Rat).Mul(rat(cost), big.NewRat(used, life))
			same(t, "worn", worn, halfEven(exact, money.Guard))
			if worn.Cmp(before) < 0 {
				t.Fatalf("a charge of %s", worn.Sub(before))
			}
			before = worn
		}
		if before != cost {
			t.Fatalf("charged %s of %s", before, cost)
		}
	})
}

func TestWornEdges(t *testing.T) {
	for _, c := range []struct {
		used, life int64
		want       string
	}{
		{-5, 3650, "0"}, {0, 3650, "0"}, {3650, 3650, "1200"}, {9999, 3650, "1200"},
		{0, 0, "1200"}, {1, -1, "1200"}, {1, 120, "10"}, {365, 3650, "120"},
	} {
		if got := money.Worn(amt(t, "1200"), c.used, c.life); got != amt(t, c.want) {
			t.Errorf("%d of %d: %s, want %s", c.used, c.life, got, c.want)
		}
	}
}

// A shade house of 1000.00, bought on 1 October, wears out over three years.
func ExampleAllocate_depreciation() {
	cost, _ := money.Parse("1000.00")
	days := []int64{92, 365, 365, 274} // in each calendar year, the third not a leap year
	charges, _ := money.Allocate(cost, days, 2)
	for _, c := range charges {
		fmt.Print(c.Fixed(2), " ")
	}
	fmt.Println("=", money.Sum(charges...).Fixed(2))
	// Output: 83.94 333.03 333.03 250.00 = 1000.00
}
