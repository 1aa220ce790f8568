package money_test

import (
	"testing"

	"github.com/budstick/budstick/report/money"
)

// TestWorkedBudget is a worked budget of a batch of 120 grafts, done by hand.
// Its prices and rates are rules of thumb from memory, without a source; what is
// checked is the arithmetic: 955.20 in all, 11.11 for each of 86 saleable trees,
// 13.07 to break even where selling takes 15 %.
func TestWorkedBudget(t *testing.T) {
	fifth := money.Ratio{Num: 1, Den: 5}
	var lot money.Pool
	spend := func(what, each string, n, per int64, want string) {
		t.Helper()
		cost := amt(t, each).MulFrac(n, per)
		if cost.Fixed(2) != want {
			t.Errorf("%s: %s, want %s", what, cost.Fixed(2), want)
		}
		put(t, &lot, 0, cost)
	}
	put(t, &lot, 120, amt(t, "2.20").MulInt(120))
	spend("grafting, 3 min each at 18.00 an hour", "18.00", 120*3, 60, "108.00")
	spend("tape", "0.05", 120, 1, "6.00")
	spend("care of 120 for 2 months", "0.35", 120*2, 1, "84.00")
	spend("0.06 m2 each for 2 months", "1.00", 6*120*2, 100, "14.40")

	if abnormal, err := lot.Lose(24, money.Normal{Share: fifth, Entered: 120}); err != nil || abnormal != (money.Amount{}) {
		t.Fatalf("80 %% take is as expected, but %s is lost (%v)", abnormal, err)
	}
	spend("pots", "2.40", 96, 1, "230.40")
	spend("care of 96 for 5 months", "0.35", 96*5, 1, "168.00")
	spend("0.06 m2 each for 5 months", "1.00", 6*96*5, 100, "28.80")
	if _, err := lot.Lose(10, money.Normal{Share: fifth, Entered: 96}); err != nil {
		t.Fatal(err)
	}
	spend("tags and stakes", "0.60", 86, 1, "51.60")

	if got := lot.Cost().Fixed(2); got != "955.20" || lot.Count() != 86 {
		t.Errorf("%s for %d, want 955.20 for 86", got, lot.Count())
	}
	if got := lot.Cost().MulFrac(1, lot.Count()).Fixed(2); got != "11.11" {
		t.Errorf("a saleable tree costs %s, want 11.11", got)
	}
	selling := money.Ratio{Num: 15, Den: 100}
	if got, err := money.PriceFor(lot.Cost(), lot.Count(), selling, money.Ratio{}, 2); err != nil || got != amt(t, "13.07") {
		t.Errorf("break-even price %s, want 13.07 (%v)", got, err)
	}
}

// TestBudgetOneMorePoint: the same budget at 80 and at 81 % take, for a hundred
// times the stocks so that all plants are whole. One point more lowers the cost
// of a tree by about 0.07 only.
func TestBudgetOneMorePoint(t *testing.T) {
	perTree := func(taken int64) money.Amount {
		saleable := taken * 9 / 10
		plantMonths := 12_000*2 + taken*5
		total := money.Sum(
			amt(t, "3.15").MulInt(12_000), // stock 2.20, graft 0.90, tape 0.05
			amt(t, "0.35").MulInt(plantMonths),
			amt(t, "0.06").MulInt(plantMonths),
			amt(t, "2.40").MulInt(taken),
			amt(t, "0.60").MulInt(saleable),
		)
		return total.MulFrac(1, saleable)
	}
	if got := perTree(9600).Sub(perTree(9720)).Fixed(2); got != "0.07" {
		t.Errorf("one point of take is worth %s a tree, want 0.07", got)
	}
}
