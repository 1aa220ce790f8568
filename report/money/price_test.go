package money_test

import (
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"github.com/budstick/budstick/report/money"
)

// TestPriceFor: the price is whole in steps, pays cost, selling and margin, and
// one step less would not.
func TestPriceFor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cost := amounts().Draw(t, "cost")
		plants := rapid.Int64Range(1, 100_000).Draw(t, "plants")
		den := rapid.SampledFrom([]int64{100, 1000, 1_000_000_000_000_000_000}).Draw(t, "den")
		selling := money.Ratio{Num: rapid.Int64Range(0, den/2).Draw(t, "selling"), Den: den}
		margin := money.Ratio{Num: rapid.Int64Range(0, 49).Draw(t, "margin"), Den: 100}
		places := rapid.IntRange(0, money.Guard).Draw(t, "places")
		price, err := money.PriceFor(cost, plants, selling, margin, places)
		if err != nil {
			t.Fatal(err)
		}
		if price != price.Round(places, money.Down) {
			t.Fatalf("%s is finer than a step", price)
		}
		kept := big.NewRat(1, 1)
		kept.Sub(kept, big.NewRat(selling.Num, selling.Den))
		kept.Sub(kept, big.NewRat(margin.Num, margin.Den))
		pays := func(price *big.Rat) bool {
			income := new(big.Rat).Mul(price, big.NewRat(plants, 1))
			return income.Mul(income, kept).Cmp(rat(cost)) >= 0
		}
		if !pays(rat(price)) {
			t.Fatalf("%s does not pay", price)
		}
		if pays(new(big.Rat).Sub(rat(price), grain(places))) {
			t.Fatalf("a step less than %s pays too", price)
		}
	})
}

func TestPriceForRefuses(t *testing.T) {
	for name, c := range map[string]struct {
		plants          int64
		selling, margin money.Ratio
	}{
		"no plants":         {0, money.Ratio{}, money.Ratio{}},
		"fewer than none":   {-3, money.Ratio{}, money.Ratio{}},
		"selling takes all": {10, money.Ratio{Num: 1, Den: 1}, money.Ratio{}},
		"both take all":     {10, money.Ratio{Num: 1, Den: 2}, money.Ratio{Num: 50, Den: 100}},
		"negative selling":  {10, money.Ratio{Num: -1, Den: 2}, money.Ratio{}},
		"negative margin":   {10, money.Ratio{}, money.Ratio{Num: -1, Den: 2}},
	} {
		if price, err := money.PriceFor(amt(t, "100"), c.plants, c.selling, c.margin, 2); err == nil {
			t.Errorf("%s: %s, want it refused", name, price)
		}
	}
}
