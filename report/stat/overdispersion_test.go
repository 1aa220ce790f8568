package stat

import (
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
				P     float64
				SE    float64 `json:"se_cluster_ratio"`
				Deff  float64 `json:"design_effect"`
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
		got, ok := ClusterRate(cells[cell])
		if !ok {
			t.Fatalf("%s has no cluster rate", cell)
		}
		near(t, cell+" rate", got.Rate, want.P, 1e-9)
		near(t, cell+" standard error", got.StdError, want.SE, 1e-9)
		near(t, cell+" design effect", got.DesignEffect, want.Deff, 1e-9)
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
		if _, ok := ClusterRate(lots); ok {
			t.Errorf("%s: a spread between lots", name)
		}
	}
	alike := []Tally{{5, 10}, {5, 10}, {5, 10}}
	if got := BetweenLots(alike).Phi(); got != 1 {
		t.Errorf("lots all alike: phi is %v, want 1", got)
	}
}

func TestWideInterval(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 1000).Draw(t, "n")
		tally := Tally{rapid.IntRange(0, n).Draw(t, "x"), n}
		phi := rapid.Float64Range(0, 10).Draw(t, "phi")
		plain, wide := Wilson(tally.X, tally.N, 0.95), WilsonWide(tally, phi, 0.95)
		if phi <= 1 && wide != plain {
			t.Fatalf("phi %v widens %v to %v", phi, plain, wide)
		}
		if wide.Low > plain.Low || wide.High < plain.High {
			t.Fatalf("phi %v narrows %v to %v", phi, plain, wide)
		}
	})
}
