package money_test

import (
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"github.com/budstick/budstick/report/money"
)

// TestRound has the cases by which IEEE 754-2019, 4.3, tells its rounding
// directions apart (from memory): on both sides of a half, and negative.
func TestRound(t *testing.T) {
	for _, c := range []struct{ in, even, up, higher, lower string }{
		{"2.4", "2", "2", "3", "2"},
		{"2.5", "2", "3", "3", "2"},
		{"2.500000001", "3", "3", "3", "2"},
		{"3.5", "4", "4", "4", "3"},
		{"-2.4", "-2", "-2", "-2", "-3"},
		{"-2.5", "-2", "-3", "-2", "-3"},
		{"-3.5", "-4", "-4", "-3", "-4"},
		{"7", "7", "7", "7", "7"},
		{"0.000000001", "0", "0", "1", "0"},
		{"9223372036.5", "9223372036", "9223372037", "9223372037", "9223372036"},
		{"99999999999.5", "100000000000", "100000000000", "100000000000", "99999999999"},
		{"-99999999999.5", "-100000000000", "-100000000000", "-99999999999", "-100000000000"},
	} {
		for mode, want := range map[money.Rounding]string{
			money.HalfEven: c.even, money.HalfUp: c.up, money.Up: c.higher, money.Down: c.lower,
		} {
			if got := amt(t, c.in).Round(0, mode); got != amt(t, want) {
				t.Errorf("%s by mode %d is %s, want %s", c.in, mode, got, want)
			}
		}
	}
}

func TestRoundHalfEven(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := amounts().Draw(t, "a")
		places := rapid.IntRange(0, money.Guard).Draw(t, "places")
		same(t, "half even", a.Round(places, money.HalfEven), halfEven(rat(a), places))
		same(t, "down", a.Round(places, money.Down), steps(floorSteps(rat(a), places), places))
		if a.Round(places, money.Up) != a.Neg().Round(places, money.Down).Neg() {
			t.Fatal("up is not the mirror of down")
		}
	})
}

// TestRoundParts: the rounded parts add up to the rounded sum, each stays
// within a step, and a part that is whole already stays as it is.
func TestRoundParts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		parts := rapid.SliceOfN(amounts(), 0, 12).Draw(t, "parts")
		places := rapid.IntRange(0, money.Guard).Draw(t, "places")
		rounded := money.RoundParts(parts, places)
		same(t, "sum", money.Sum(rounded...), halfEven(rat(money.Sum(parts...)), places))
		for i, a := range parts {
			if off := new(big.Rat).Sub(rat(rounded[i]), rat(a)); off.Abs(off).Cmp(grain(places)) >= 0 {
				t.Fatalf("%s became %s", a, rounded[i])
			}
			if rounded[i] != rounded[i].Round(places, money.Down) {
				t.Fatalf("%s is not whole at %d places", rounded[i], places)
			}
		}
	})
}

func TestRoundPartsByHand(t *testing.T) {
	parts := []money.Amount{amt(t, "0.333"), amt(t, "0.333"), amt(t, "0.334"), amt(t, "-1.005"), amt(t, "2.005")}
	want := []string{"0.33", "0.33", "0.33", "-1.00", "2.01"} // the rests are .003 .003 .004 .005 .005
	for i, got := range money.RoundParts(parts, 2) {
		if got.Fixed(2) != want[i] {
			t.Errorf("part %d is %s, want %s", i, got, want[i])
		}
	}
}
