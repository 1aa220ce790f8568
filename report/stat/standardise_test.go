package stat

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// By hand: season a has 80 easy grafts at 90 % and 20 hard ones at 40 %,
// season b 50 of each at 80 % and 40 %. With the mix of b, season a would have
// had (90+40)/2; with the mix of a, season b 0.8*80+0.2*40. Mix weighs
// -0.3 and +0.3 by the mean rates 0.85 and 0.40; rate weighs -0.1 by the mean
// mix 0.65.
func TestStandardise(t *testing.T) {
	s, ok := Standardise([]Tally{{72, 80}, {8, 20}}, []Tally{{40, 50}, {20, 50}})
	if !ok {
		t.Fatal("no standardisation")
	}
	for what, pair := range map[string][2]float64{
		"a as it was":       {s.RateA, 0.80},
		"b as it was":       {s.RateB, 0.60},
		"a with mix of b":   {s.AWithMixOfB, 0.65},
		"b with mix of a":   {s.BWithMixOfA, 0.72},
		"the share of mix":  {s.Mix, -0.135},
		"the share of rate": {s.Rate, -0.065},
	} {
		near(t, what, pair[0], pair[1], 1e-12)
	}
}

func TestStandardiseNewStratum(t *testing.T) {
	s, ok := Standardise([]Tally{{40, 50}, {}}, []Tally{{40, 50}, {5, 50}})
	if !ok {
		t.Fatal("no standardisation")
	}
	near(t, "the share of rate", s.Rate, 0, 1e-12)
	near(t, "the share of mix", s.Mix, 0.45-0.80, 1e-12)
	if _, ok := Standardise([]Tally{{}}, []Tally{{3, 5}}); ok {
		t.Error("a season without trials is compared")
	}
}

func TestStandardiseProperties(t *testing.T) {
	tally := rapid.Custom(func(t *rapid.T) Tally {
		n := rapid.IntRange(0, 50).Draw(t, "n")
		return Tally{rapid.IntRange(0, n).Draw(t, "x"), n}
	})
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.IntRange(1, 5).Draw(t, "strata")
		a := rapid.SliceOfN(tally, k, k).Draw(t, "a")
		b := rapid.SliceOfN(tally, k, k).Draw(t, "b")
		s, ok := Standardise(a, b)
		if !ok {
			if Pool(a).N > 0 && Pool(b).N > 0 {
				t.Fatal("two seasons with trials, and no comparison")
			}
			return
		}
		if math.Abs(s.Mix+s.Rate-(s.RateB-s.RateA)) > 1e-12 {
			t.Fatalf("mix and rate do not add up: %+v", s)
		}
		back, _ := Standardise(b, a)
		if math.Abs(back.Mix+s.Mix) > 1e-12 || math.Abs(back.AWithMixOfB-s.BWithMixOfA) > 1e-12 {
			t.Fatalf("turned about, %+v is not the mirror of %+v", back, s)
		}
	})
}
