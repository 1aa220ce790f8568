package stat

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// plumStrata are the plum root cuttings of M. S. Bartlett (1935), Supplement
// to the Journal of the Royal Statistical Society 2:248-252: alive of 240,
// one factor compared within the levels of the other.
func plumStrata(t *testing.T, compared, within string) []Stratum {
	t.Helper()
	counts := map[[2]string]Tally{}
	var levels, strata []string
	for _, r := range readTable(t, "03_plum_root_cuttings.csv") {
		counts[[2]string{r[compared], r[within]}] = Tally{r.int(t, "alive"), r.int(t, "n")}
		levels = appendNew(levels, r[compared])
		strata = appendNew(strata, r[within])
	}
	var tables []Stratum
	for _, s := range strata {
		tables = append(tables, Stratum{counts[[2]string{levels[0], s}], counts[[2]string{levels[1], s}]})
	}
	return tables
}

func appendNew(to []string, v string) []string {
	for _, have := range to {
		if have == v {
			return to
		}
	}
	return append(to, v)
}

// Computed with mantelhaen.test of R 4.2.2 and woolf_test of vcd 1.4-11;
// Breslow-Day and Tarone coded in R from their publications.
func TestPlumStrata(t *testing.T) {
	type expected struct {
		Ratio   float64   `json:"mh_common_or"`
		Limits  []float64 `json:"mh_or_ci95"`
		CMH     float64   `json:"cmh_chisq_nocorrection"`
		CMHP    float64   `json:"cmh_p_nocorrection"`
		Yates   float64   `json:"cmh_chisq_corrected"`
		YatesP  float64   `json:"cmh_p_corrected"`
		Breslow struct {
			Plain   float64 `json:"bd"`
			DF      int
			P       float64
			Tarone  float64 `json:"bd_tarone"`
			TaroneP float64 `json:"p_tarone"`
		} `json:"breslow_day"`
		Woolf struct {
			ChiSq float64
			DF    int
			P     float64
		}
	}
	var all struct {
		Time   expected `json:"time_effect_stratified_by_length"`
		Length expected `json:"length_effect_stratified_by_time"`
	}
	readCase(t, "03_plum_root_cuttings.json", &all)
	for compared, want := range map[string]expected{"time": all.Time, "length": all.Length} {
		within := map[string]string{"time": "length", "length": "time"}[compared]
		strata := plumStrata(t, compared, within)

		plain, corrected, ok := CochranMantelHaenszel(strata)
		if !ok {
			t.Fatalf("%s: no Cochran-Mantel-Haenszel test", compared)
		}
		near(t, compared+" CMH", plain.Statistic, want.CMH, 1e-9)
		near(t, compared+" CMH p", plain.P/want.CMHP, 1, 1e-9)
		near(t, compared+" CMH corrected", corrected.Statistic, want.Yates, 1e-9)
		near(t, compared+" CMH corrected p", corrected.P/want.YatesP, 1, 1e-9)

		ratio, limits, ok := CommonOdds(strata, 0.95)
		if !ok {
			t.Fatalf("%s: no common odds ratio", compared)
		}
		near(t, compared+" ratio", ratio, want.Ratio, 1e-9)
		nearInterval(t, compared+" ratio", limits, want.Limits[0], want.Limits[1], 1e-9)

		bd, tarone, ok := BreslowDay(strata)
		if !ok || bd.DF != want.Breslow.DF {
			t.Fatalf("%s: Breslow-Day on %d df, ok %v", compared, bd.DF, ok)
		}
		near(t, compared+" Breslow-Day", bd.Statistic, want.Breslow.Plain, 1e-9)
		near(t, compared+" Breslow-Day p", bd.P, want.Breslow.P, 1e-9)
		near(t, compared+" Tarone", tarone.Statistic, want.Breslow.Tarone, 1e-9)
		near(t, compared+" Tarone p", tarone.P, want.Breslow.TaroneP, 1e-9)

		woolf, ok := Woolf(strata)
		if !ok || woolf.DF != want.Woolf.DF {
			t.Fatalf("%s: Woolf on %d df, ok %v", compared, woolf.DF, ok)
		}
		near(t, compared+" Woolf", woolf.Statistic, want.Woolf.ChiSq, 1e-8)
		near(t, compared+" Woolf p", woolf.P, want.Woolf.P, 1e-8)
	}
}

func TestStrataWithoutInformation(t *testing.T) {
	dull := Stratum{Tally{0, 5}, Tally{0, 7}}
	telling := Stratum{Tally{4, 5}, Tally{2, 7}}
	for name, strata := range map[string][]Stratum{"none": nil, "one outcome": {dull}, "no trials": {{}}} {
		if _, _, ok := CochranMantelHaenszel(strata); ok {
			t.Errorf("%s: a Cochran-Mantel-Haenszel test", name)
		}
		if _, _, ok := CommonOdds(strata, 0.95); ok {
			t.Errorf("%s: a common odds ratio", name)
		}
	}
	if _, _, ok := BreslowDay([]Stratum{telling, dull}); ok {
		t.Error("Breslow-Day of one telling stratum")
	}
	if _, ok := Woolf([]Stratum{telling, dull}); ok {
		t.Error("Woolf of one telling stratum")
	}
	alone, _, _ := CochranMantelHaenszel([]Stratum{telling})
	both, _, _ := CochranMantelHaenszel([]Stratum{dull, telling})
	if alone != both {
		t.Errorf("a stratum of one outcome moves the test from %v to %v", alone, both)
	}
}

func TestStrataProperties(t *testing.T) {
	tally := rapid.Custom(func(t *rapid.T) Tally {
		n := rapid.IntRange(2, 60).Draw(t, "n")
		return Tally{rapid.IntRange(1, n-1).Draw(t, "x"), n}
	})
	rapid.Check(t, func(t *rapid.T) {
		a, b := tally.Draw(t, "a"), tally.Draw(t, "b")
		copies := make([]Stratum, rapid.IntRange(2, 4).Draw(t, "copies"))
		for i := range copies {
			copies[i] = Stratum{a, b}
		}
		sample, _ := OddsRatio(a, b)
		common, limits, ok := CommonOdds(copies, 0.95)
		if !ok || math.Abs(common/sample-1) > 1e-9 || !limits.Contains(common) {
			t.Fatalf("equal strata of ratio %v have the common ratio %v within %v", sample, common, limits)
		}
		bd, tarone, ok := BreslowDay(copies)
		if !ok || bd.Statistic > 1e-9 || tarone.Statistic > 1e-9 {
			t.Fatalf("equal strata differ by %v, %v", bd, tarone)
		}
		woolf, ok := Woolf(copies)
		if !ok || woolf.Statistic > 1e-9 {
			t.Fatalf("equal strata differ by %v", woolf)
		}
		plain, corrected, _ := CochranMantelHaenszel(copies)
		if corrected.Statistic > plain.Statistic {
			t.Fatalf("the correction raises %v to %v", plain, corrected)
		}
	})
}
