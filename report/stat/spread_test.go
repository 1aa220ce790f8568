package stat

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// saxony is the number of boys in 6115 Saxon families of twelve children,
// A. Geissler (1889), as given by J. K. Lindsey and P. M. E. Altham (1998),
// Analysis of the human sex ratio by using overdispersion models, Applied
// Statistics 47:149-157 (counts from memory; they add up).
var saxony = []int{3, 24, 104, 286, 670, 1033, 1343, 1112, 829, 478, 181, 45, 7}

// The fit printed for those families in expositions of the beta-binomial law
// (from memory) has shape 34.09558 and 31.5715 and AIC 24989.74. Its shape is
// that of a climb that stopped early: the zero of the likelihood's gradient,
// found with 30 digits in mpmath 1.3.0, is 34.1028576158 and 31.5782341550,
// with log likelihood -12492.8713585513.
func TestFitSpreadOfSaxony(t *testing.T) {
	var families []Tally
	for boys, count := range saxony {
		for range count {
			families = append(families, Tally{boys, 12})
		}
	}
	if len(families) != 6115 {
		t.Fatalf("%d families, want 6115", len(families))
	}
	fit := FitSpread(families)
	if fit.Edge != Inside {
		t.Fatalf("edge is %v, want Inside", fit.Edge)
	}
	weight := (1 - fit.Rho) / fit.Rho
	near(t, "alpha", fit.Mean*weight, 34.1028576158, 1e-6)
	near(t, "beta", (1-fit.Mean)*weight, 31.5782341550, 1e-6)
	near(t, "log likelihood", fit.LogLikelihood, -12492.8713585513, 1e-6)
	near(t, "AIC", 2*2-2*fit.LogLikelihood, 24989.74, 5e-3)
}

func TestFitSpreadEdges(t *testing.T) {
	for name, c := range map[string]struct {
		groups []Tally
		edge   Edge
		mean   float64
		rho    float64
	}{
		"nothing":             {nil, NoSpread, 0, 0},
		"no trials":           {[]Tally{{}, {}}, NoSpread, 0, 0},
		"one group":           {[]Tally{{3, 4}}, NoSpread, 0.75, 0},
		"single trials":       {[]Tally{{1, 1}, {0, 1}, {1, 1}, {1, 1}}, NoSpread, 0.75, 0},
		"all alike":           {[]Tally{{5, 10}, {5, 10}, {10, 20}}, NoSpread, 0.5, 0},
		"all took":            {[]Tally{{5, 5}, {8, 8}}, NoSpread, 1, 0},
		"none took":           {[]Tally{{0, 5}, {0, 8}}, NoSpread, 0, 0},
		"each all or nothing": {[]Tally{{5, 5}, {0, 8}, {7, 7}, {}}, AllOrNothing, 2.0 / 3, 1},
	} {
		t.Run(name, func(t *testing.T) {
			fit := FitSpread(c.groups)
			if fit.Edge != c.edge {
				t.Errorf("edge is %v, want %v", fit.Edge, c.edge)
			}
			near(t, "mean", fit.Mean, c.mean, 1e-12)
			near(t, "rho", fit.Rho, c.rho, 1e-12)
			if got := fit.DrawnIn(Tally{2, 2}); !(0 < got && got < 1) {
				t.Errorf("2 of 2 is drawn in to %v", got)
			}
		})
	}
}

// At the edges: (x+1/2)/(n+1) of all groups together, and one trial's worth of
// their mean.
func TestDrawnInAtEdges(t *testing.T) {
	alike := FitSpread([]Tally{{3, 4}, {3, 4}})
	near(t, "2 of 2 where groups are alike", alike.DrawnIn(Tally{2, 2}), 6.5/9, 1e-12)
	coins := FitSpread([]Tally{{5, 5}, {0, 8}, {7, 7}})
	near(t, "2 of 2 where each is all or nothing", coins.DrawnIn(Tally{2, 2}), (2.0/3+2)/3, 1e-12)
	near(t, "nothing", coins.DrawnIn(Tally{}), 2.0/3, 1e-12)
}

// At the edges the likelihood is that of the binomial law, and of coins that
// fall once for each group.
func TestFitSpreadLikelihoodAtEdges(t *testing.T) {
	alike := FitSpread([]Tally{{1, 2}, {1, 2}})
	near(t, "two of C(2,1)/4", alike.LogLikelihood, 2*math.Log(0.5), 1e-12)
	coins := FitSpread([]Tally{{5, 5}, {0, 8}})
	near(t, "two coins", coins.LogLikelihood, 2*math.Log(0.5), 1e-12)
}

func TestFitSpreadProperties(t *testing.T) {
	tally := rapid.Custom(func(t *rapid.T) Tally {
		n := rapid.IntRange(0, 40).Draw(t, "n")
		return Tally{rapid.IntRange(0, n).Draw(t, "x"), n}
	})
	rapid.Check(t, func(t *rapid.T) {
		groups := rapid.SliceOfN(tally, 2, 12).Draw(t, "groups")
		fit := FitSpread(groups)
		if !(0 <= fit.Mean && fit.Mean <= 1 && 0 <= fit.Rho && fit.Rho <= 1) || math.IsNaN(fit.LogLikelihood) {
			t.Fatalf("no fit: %+v", fit)
		}
		if fit.Edge != Inside {
			return
		}
		// The likelihood by its plain definition, and no better one nearby.
		plain := func(mean, rho float64) float64 {
			var sum float64
			for _, g := range groups {
				sum += logBetaBinomial(g.X, g.N, mean*(1-rho)/rho, (1-mean)*(1-rho)/rho)
			}
			return sum
		}
		top := plain(fit.Mean, fit.Rho)
		if math.Abs(top-fit.LogLikelihood) > 1e-7*(1+math.Abs(top)) {
			t.Fatalf("log likelihood is %v, by definition %v", fit.LogLikelihood, top)
		}
		for _, step := range []float64{-1e-3, 1e-3} {
			if m := fit.Mean + step; 0 < m && m < 1 && plain(m, fit.Rho) > top+1e-9 {
				t.Fatalf("a higher likelihood at mean %v than at %v", m, fit.Mean)
			}
			if r := fit.Rho * (1 + step); r < 1 && plain(fit.Mean, r) > top+1e-9 {
				t.Fatalf("a higher likelihood at rho %v than at %v", r, fit.Rho)
			}
		}
		// A rate drawn in lies between the group's own and the mean of all.
		for _, g := range groups {
			got := fit.DrawnIn(g)
			if g.N > 0 && (got < min(g.Rate(), fit.Mean)-1e-12 || got > max(g.Rate(), fit.Mean)+1e-12) {
				t.Fatalf("%v is drawn in to %v past the mean %v", g, got, fit.Mean)
			}
		}
	})
}

func BenchmarkFitSpreadMillionGroups(b *testing.B) {
	groups := make([]Tally, 1_000_000)
	for i := range groups {
		n := 5 + i%60
		groups[i] = Tally{(i*7919 + i/3) % (n + 1), n}
	}
	for b.Loop() {
		if FitSpread(groups).Edge != Inside {
			b.Fatal("no spread")
		}
	}
}
