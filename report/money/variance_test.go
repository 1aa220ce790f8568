package money_test

import (
	"testing"

	"pgregory.net/rapid"

	"github.com/budstick/budstick/report/money"
)

// TestSplitRevenueAddsUp: to the last cent, by product and over all, also with
// products that are new, dropped or sold back.
func TestSplitRevenueAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		places := rapid.IntRange(0, 4).Draw(t, "places")
		products := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) money.Change {
			count := rapid.Int64Range(-2, 500)
			return money.Change{
				Before: count.Draw(t, "before"), After: count.Draw(t, "after"),
				RevenueBefore: amounts().Draw(t, "revenue before"), RevenueAfter: amounts().Draw(t, "revenue after"),
			}
		}), 0, 8).Draw(t, "products")
		each, whole := money.SplitRevenue(products, places)
		var rows money.Effects
		var change money.Amount
		for i, p := range products {
			rows = rows.Add(each[i])
			own := p.RevenueAfter.Sub(p.RevenueBefore)
			change = change.Add(own)
			if own == own.Round(places, money.Down) && each[i].Total() != own {
				t.Fatalf("product %d: %s, want %s", i, each[i].Total(), own)
			}
			for _, part := range []money.Amount{each[i].Price, each[i].Volume, each[i].Mix} {
				if part != part.Round(places, money.Down) {
					t.Fatalf("%s is finer than a step", part)
				}
			}
		}
		if rows != whole || whole.Total() != change.Round(places, money.HalfEven) {
			t.Fatalf("rows %v, whole %v, change %s", rows, whole, change)
		}
	})
}

// TestSplitRevenueEdges has its figures worked out by hand from the formulas.
func TestSplitRevenueEdges(t *testing.T) {
	for _, c := range []struct {
		name               string
		products           []money.Change
		price, volume, mix string
	}{
		{"nothing", nil, "0", "0", "0"},
		{"nothing sold before", []money.Change{{After: 10, RevenueAfter: amt(t, "190")}}, "0", "190", "0"},
		{"nothing sold after", []money.Change{{Before: 10, RevenueBefore: amt(t, "190")}}, "0", "-190", "0"},
		{"price alone", []money.Change{
			{10, 10, amt(t, "190"), amt(t, "200")}}, "10", "0", "0"},
		{"twice of all", []money.Change{
			{10, 20, amt(t, "190"), amt(t, "380")}, {5, 10, amt(t, "50"), amt(t, "100")}}, "0", "240", "0"},
		{"only other kinds", []money.Change{
			{10, 5, amt(t, "200"), amt(t, "100")}, {5, 10, amt(t, "50"), amt(t, "100")}}, "0", "0", "-50"},
		// 10 at 20 before; then 10 of them at 20 and 10 of a new kind at 30: twice
		// the plants at the old price is 200 more, the new kind's rest is mix.
		{"a new product", []money.Change{
			{10, 10, amt(t, "200"), amt(t, "200")}, {0, 10, money.Amount{}, amt(t, "300")}}, "0", "200", "100"},
	} {
		_, whole := money.SplitRevenue(c.products, 2)
		if want := (money.Effects{Price: amt(t, c.price), Volume: amt(t, c.volume), Mix: amt(t, c.mix)}); whole != want {
			t.Errorf("%s: got %v, want %v", c.name, whole, want)
		}
	}
}
