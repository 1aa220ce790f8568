package stat

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mathext"
	"pgregory.net/rapid"
)

func oneLot(tallies ...Tally) [][]Tally {
	var seasons [][]Tally
	for _, t := range tallies {
		seasons = append(seasons, []Tally{t})
	}
	return seasons
}

// bruteForce is the mean and the variance of the next season's chance by a grid
// of the whole range, 1000 means by 60 weights.
func bruteForce(seasons []Tally) (mean, variance float64) {
	const means, weights = 1000, 60
	var total, first, second float64
	shift := math.Inf(-1)
	var logs []float64
	for pass := range 2 {
		for i := range means * weights {
			m := (float64(i%means) + 0.5) / means
			w := 20 * math.Pow(100, (float64(i/means)+0.5)/weights)
			if pass == 0 {
				l := 0.0
				for _, s := range seasons {
					l += mathext.Lbeta(float64(s.X)+m*w, float64(s.N-s.X)+(1-m)*w) - mathext.Lbeta(m*w, (1-m)*w)
				}
				logs, shift = append(logs, l), max(shift, l)
				continue
			}
			p := math.Exp(logs[i] - shift)
			total, first, second = total+p, first+p*m, second+p*(m*m+m*(1-m)/(w+1))
		}
	}
	mean = first / total
	return mean, second/total - mean*mean
}

func TestForeseenAgainstBruteForce(t *testing.T) {
	for _, seasons := range [][]Tally{{{18, 24}}, {{140, 200}, {170, 200}, {150, 190}}, {{0, 40}, {1, 60}}, {{450, 500}, {850, 1000}}} {
		o, ok := Foresee(oneLot(seasons...))
		mean, variance := bruteForce(seasons)
		got := o.Mean() * (1 - o.Mean()) / (o.Alpha + o.Beta + 1)
		if !ok || math.Abs(o.Mean()-mean) > 0.01*mean || math.Abs(got-variance) > 0.05*variance {
			t.Errorf("%v: mean %v and variance %v, want %v and %v", seasons, o.Mean(), got, mean, variance)
		}
	}
}

func TestForeseeProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		seasons := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Tally {
			n := rapid.IntRange(1, 300).Draw(t, "n")
			return Tally{rapid.IntRange(0, n).Draw(t, "x"), n}
		}), 1, 5).Draw(t, "seasons")
		o, ok := Foresee(oneLot(seasons...))
		if !ok || !(o.Alpha > 0 && o.Beta > 0) || math.IsInf(o.Alpha+o.Beta, 0) {
			t.Fatalf("%v: %v, %v", seasons, o, ok)
		}
		if o.Alpha+o.Beta > mostWeight {
			t.Errorf("%v: as sure as if %v outcomes were of the season itself", seasons, o.Alpha+o.Beta)
		}
		turned := make([]Tally, len(seasons))
		for i, s := range seasons {
			turned[len(seasons)-1-i] = Tally{s.N - s.X, s.N}
		}
		if m, _ := Foresee(oneLot(turned...)); math.Abs(m.Mean()+o.Mean()-1) > 1e-6 {
			t.Errorf("failures are foreseen as %v, successes as %v", m.Mean(), o.Mean())
		}
	})
}

// Seasons that differ say less of the next than seasons that agree, and lots that
// differ less than lots that agree.
func TestSpreadMakesLessSure(t *testing.T) {
	weight := func(seasons [][]Tally) float64 {
		o, ok := Foresee(seasons)
		if !ok {
			t.Fatal("nothing is foreseen")
		}
		return o.Alpha + o.Beta
	}
	alike := weight(oneLot(Tally{150, 200}, Tally{152, 200}, Tally{149, 200}))
	apart := weight(oneLot(Tally{120, 200}, Tally{180, 200}, Tally{151, 200}))
	if apart >= alike {
		t.Errorf("seasons apart weigh %v, alike %v", apart, alike)
	}
	even := weight([][]Tally{{{30, 40}, {30, 40}, {30, 40}}, {{30, 40}, {30, 40}, {30, 40}}})
	uneven := weight([][]Tally{{{40, 40}, {15, 40}, {35, 40}}, {{20, 40}, {38, 40}, {32, 40}}})
	if uneven >= even {
		t.Errorf("lots apart weigh %v, alike %v", uneven, even)
	}
	if _, ok := Foresee([][]Tally{{}, {{0, 0}}}); ok {
		t.Error("something is foreseen of nothing")
	}
}

// Lots that are all or nothing, or nearly, leave an outlook that is still a
// law, and one that is worth very little.
func TestForeseeAllOrNothing(t *testing.T) {
	for _, lots := range [][]Tally{
		{{X: 50, N: 50}, {X: 0, N: 50}},
		{{X: 1, N: 5}, {X: 40, N: 50}, {X: 0, N: 30}},
		{{X: 1000, N: 1000}, {X: 0, N: 1}},
		{{X: 0, N: 1000}, {X: 3, N: 3}},
	} {
		o, ok := Foresee([][]Tally{lots})
		if !ok || !(o.Alpha > 0) || !(o.Beta > 0) {
			t.Errorf("%v foresees %+v", lots, o)
			continue
		}
		sum := 0.0
		for _, w := range o.Chance().weight {
			sum += w
		}
		if !(math.Abs(sum-1) < 1e-9) {
			t.Errorf("%v: the chances weigh %v in all", lots, sum)
		}
	}
}
