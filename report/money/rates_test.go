package money_test

import (
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"github.com/budstick/budstick/report/money"
)

func TestRatesInForce(t *testing.T) {
	var rates money.Rates
	for _, r := range []struct {
		day  int
		home string
	}{{200, "0.95"}, {100, "0.92"}, {300, "0.80"}, {300, "0.90"}} {
		if err := rates.Set("USD", r.day, amt(t, "1"), amt(t, r.home)); err != nil {
			t.Fatal(err)
		}
	}
	for day, want := range map[int]string{100: "9.2", 199: "9.2", 200: "9.5", 299: "9.5", 300: "9", 5000: "9"} {
		if got, ok := rates.Convert(amt(t, "10"), "USD", day); !ok || got != amt(t, want) {
			t.Errorf("day %d: 10 USD is %s, want %s", day, got, want)
		}
	}
	for _, c := range []struct {
		code string
		day  int
	}{{"USD", 99}, {"GBP", 300}} {
		if got, ok := rates.Convert(amt(t, "10"), c.code, c.day); ok {
			t.Errorf("%s on day %d is %s, want no rate", c.code, c.day, got)
		}
	}
}

func TestRatesRefused(t *testing.T) {
	var rates money.Rates
	for _, c := range [][2]string{{"0", "1"}, {"1", "0"}, {"-1", "-1"}} {
		if err := rates.Set("USD", 1, amt(t, c[0]), amt(t, c[1])); err == nil {
			t.Errorf("%s USD is %s: want it refused", c[0], c[1])
		}
	}
	if _, ok := rates.Convert(amt(t, "1"), "USD", 1); ok {
		t.Error("a refused rate is in force")
	}
}

// TestConvertRounds: once, half to even, at the last of the decimals kept.
func TestConvertRounds(t *testing.T) {
	positive := amounts().Filter(func(a money.Amount) bool { return a.Sign() > 0 })
	rapid.Check(t, func(t *rapid.T) {
		foreign, home := positive.Draw(t, "foreign"), positive.Draw(t, "home")
		a := amounts().Draw(t, "a")
		var rates money.Rates
		if err := rates.Set("USD", 0, foreign, home); err != nil {
			t.Fatal(err)
		}
		got, ok := rates.Convert(a, "USD", 0)
		if !ok {
			t.Fatal("no rate")
		}
		exact := new(big.Rat).Mul(rat(a), rat(home))
		same(t, "converted", got, halfEven(exact.Quo(exact, rat(foreign)), money.Guard))
	})
}
