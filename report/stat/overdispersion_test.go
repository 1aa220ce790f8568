package stat

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// plates are the 64 plates of R. Mead, R. N. Curnow and A. M. Hasted (2002),
// Statistical Methods in Agriculture and Experimental Biology, 3rd edition,
// pages 350-351: seeds germinated of 50, by temperature and concentration.
func plates(t *testing.T) []row {
	t.Helper()
	return readTable(t, "03_seed_germination_plates.csv")
}

func plateTally(t *testing.T, r row) Tally {
	t.Helper()
	return Tally{r.int(t, "germ"), r.int(t, "seeds")}
}

// Each cell's four plates, computed with R 4.2.2.
func TestPlatesWithinCells(t *testing.T) {
	var all struct {
		Clusters struct {
			Cells map[string]struct {
				ChiSq float64 `json:"chisq_heterogeneity"`
				DF    int
			}
		}
	}
	readCase(t, "03_seed_germination_plates.json", &all)
	cells := map[string][]Tally{}
	for _, r := range plates(t) {
		cell := r["temp"] + "_" + r["conc"]
		cells[cell] = append(cells[cell], plateTally(t, r))
	}
	var pearson float64
	var df int
	var groups [][]Tally
	for cell, want := range all.Clusters.Cells {
		test, ok := Homogeneity(cells[cell])
		if !ok || test.DF != want.DF {
			t.Fatalf("%s: homogeneity on %d df, ok %v", cell, test.DF, ok)
		}
		near(t, cell+" chi-square", test.Statistic, want.ChiSq, 1e-9)
		pearson += want.ChiSq
		df += want.DF
		groups = append(groups, cells[cell])
	}
	within := BetweenLots(groups...)
	near(t, "Pearson within cells", within.Pearson, pearson, 1e-9)
	near(t, "dispersion within cells", within.Phi(), pearson/float64(df), 1e-9)
}

func TestOverdispersionOfLittle(t *testing.T) {
	for name, lots := range map[string][]Tally{
		"nothing":     nil,
		"no trials":   {{}, {}},
		"one lot":     {{3, 9}},
		"none took":   {{0, 9}, {0, 4}},
		"all took":    {{9, 9}, {4, 4}},
		"one counted": {{3, 9}, {}},
	} {
		if got := BetweenLots(lots).Phi(); got != 1 {
			t.Errorf("%s: phi is %v, want 1", name, got)
		}
	}
	alike := []Tally{{5, 10}, {5, 10}, {5, 10}}
	if got := BetweenLots(alike).Phi(); got != 1 {
		t.Errorf("lots all alike: phi is %v, want 1", got)
	}
}

// Lots of one size: the widening is Pearson's dispersion itself.
func TestWideningOfEqualLots(t *testing.T) {
	var groups [][]Tally
	cells := map[string]int{}
	for _, r := range plates(t) {
		at, seen := cells[r["temp"]]
		if !seen {
			at = len(groups)
			cells[r["temp"]] = at
			groups = append(groups, nil)
		}
		groups[at] = append(groups[at], plateTally(t, r))
	}
	o := BetweenLots(groups...)
	for _, lots := range groups {
		got := o.Widening(lots)
		near(t, "factor", got.Factor, o.Phi(), 1e-9)
		if got.DF != 60 {
			t.Errorf("%d degrees of freedom, want 60", got.DF)
		}
	}
}

func TestWidening(t *testing.T) {
	tally := rapid.Custom(func(t *rapid.T) Tally {
		n := rapid.IntRange(0, 60).Draw(t, "n")
		return Tally{rapid.IntRange(0, n).Draw(t, "x"), n}
	})
	rapid.Check(t, func(t *rapid.T) {
		groups := rapid.SliceOfN(rapid.SliceOf(tally), 1, 4).Draw(t, "groups")
		o := BetweenLots(groups...)
		if !(o.Phi() >= 1) || !(o.Rho() >= 0 && o.Rho() <= 1) {
			t.Fatalf("%+v has phi %v and rho %v", o, o.Phi(), o.Rho())
		}
		for _, lots := range groups {
			w, pool := o.Widening(lots), Pool(lots)
			plain, wide := Wilson(pool.X, pool.N, 0.95), WilsonWide(pool, w, 0.95)
			if w.Factor < 1-1e-12 || o.Rho() == 0 && wide != plain {
				t.Fatalf("%v widens %v to %v", w, plain, wide)
			}
			if wide.Low > plain.Low || wide.High < plain.High || !wide.contains(pool.Rate()) {
				t.Fatalf("%v narrows %v to %v", w, plain, wide)
			}
		}
	})
}

// Of lots of one size, the widened test of groups is the F test of their fit by
// quasi-likelihood but for the difference between Pearson's chi-square and the
// deviance; with the deviance put in, it is that test.
func TestWidenIsTheTestOfTheFit(t *testing.T) {
	groups := [][]Tally{{{12, 20}, {18, 20}, {9, 20}}, {{6, 20}, {13, 20}, {4, 20}}}
	fit := mustFit(t, Logistic{
		Counts:     slices.Concat(groups...),
		Factors:    []Factor{{"method", []string{"whip", "cleft"}, []int{0, 0, 0, 1, 1, 1}}},
		Confidence: 0.95,
	})
	between := BetweenLots(groups...)
	if between.Phi() <= 1 {
		t.Fatalf("phi %v: the lots were to differ", between.Phi())
	}
	got := between.Widen(chiSquareTest(fit.NullDeviance-fit.Deviance, 1))
	near(t, "F", got.Statistic, fit.Tests[0].Statistic, 1e-9)
	near(t, "p", got.P, fit.Tests[0].P, 1e-9)

	plain := chiSquareTest(5, 2)
	if got := BetweenLots().Widen(plain); got != plain {
		t.Errorf("widened by nothing: %+v, want %+v", got, plain)
	}
}
