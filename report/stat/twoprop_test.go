package stat

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func pairOf(t *testing.T, r row, xa, na, xb, nb string) (a, b Tally) {
	t.Helper()
	return Tally{r.int(t, xa), r.int(t, na)}, Tally{r.int(t, xb), r.int(t, nb)}
}

// Computed with R 4.2.2 (qnorm, fisher.test, chisq.test); Fisher and Newcombe
// a second time in exact arithmetic.
func TestTwoProportionsOfGrid(t *testing.T) {
	for _, r := range readTable(t, "02_twoprop_grid.csv") {
		a, b := pairOf(t, r, "x1", "n1", "x2", "n2")
		conf, id := r.float(t, "conf"), r["id"]
		nearInterval(t, id+" Newcombe", Newcombe(a, b, conf),
			r.float(t, "newcombe10_lo"), r.float(t, "newcombe10_hi"), 1e-9)

		fisher := Fisher(a, b)
		near(t, id+" two-sided", fisher.TwoSided, r.float(t, "fisher_two_sided"), 1e-9)
		near(t, id+" less", fisher.Less, r.float(t, "fisher_less"), 1e-9)
		near(t, id+" greater", fisher.Greater, r.float(t, "fisher_greater"), 1e-9)

		chi, ok := Homogeneity([]Tally{a, b})
		if want := r.float(t, "chisq"); ok == math.IsNaN(want) {
			t.Errorf("%s: chi-square is %v, ok %v, want %v", id, chi.Statistic, ok, want)
		} else if ok {
			near(t, id+" chi-square", chi.Statistic, want, 1e-9)
			near(t, id+" its p", chi.P, r.float(t, "chisq_p"), 1e-9)
		}
	}
}

// Table II of R. G. Newcombe (1998), Statistics in Medicine 17:873-890, and
// the tea tasting of R. A. Fisher (1935), The Design of Experiments.
func TestTwoProportionsAsPrinted(t *testing.T) {
	var table struct {
		Cases []struct {
			ID        string
			Inputs    struct{ X1, N1, X2, N2 int }
			Published struct{ Method10 []float64 }
			Tolerance float64 `json:"published_tolerance"`
		}
		Fisher struct {
			Table     struct{ X1, N1, X2, N2 int }
			Published struct {
				TwoSided float64 `json:"two_sided"`
				Greater  float64 `json:"one_sided_greater"`
			}
		}
	}
	readCase(t, "02_twoprop_published.json", &table)
	for _, c := range table.Cases {
		got := Newcombe(Tally{c.Inputs.X1, c.Inputs.N1}, Tally{c.Inputs.X2, c.Inputs.N2}, 0.95)
		printed := c.Published.Method10
		nearInterval(t, c.ID, got, printed[0], printed[1], c.Tolerance)
	}
	tea, want := table.Fisher.Table, table.Fisher.Published
	a, b := Tally{tea.X1, tea.N1}, Tally{tea.X2, tea.N2}
	near(t, "tea, two-sided", Fisher(a, b).TwoSided, want.TwoSided, 5e-11)
	near(t, "tea, greater", Fisher(a, b).Greater, want.Greater, 5e-11)
}

// All pairs of the plum root cuttings (M. S. Bartlett 1935, Supplement to the
// Journal of the Royal Statistical Society 2:248-252) and of the germination
// plates (R. Mead, R. N. Curnow and A. M. Hasted 2002, Statistical Methods in
// Agriculture and Experimental Biology, page 350), computed with R 4.2.2.
// P-values reach 1e-149, so they are compared by their ratio.
func TestPairwise(t *testing.T) {
	for _, name := range []string{"03_plum_pairwise.csv", "03_seed_germination_plates_pairwise.csv"} {
		rows := readTable(t, name)
		var fisher, chi []float64
		for _, r := range rows {
			a, b := pairOf(t, r, "xa", "na", "xb", "nb")
			fisher = append(fisher, Fisher(a, b).TwoSided)
			test, ok := Homogeneity([]Tally{a, b})
			if !ok {
				t.Fatalf("%s: no chi-square", name)
			}
			chi = append(chi, test.P)
		}
		for column, got := range map[string][]float64{
			"fisher_p": fisher, "fisher_holm": Holm(fisher), "chisq_p": chi, "chisq_holm": Holm(chi),
		} {
			for i, r := range rows {
				near(t, name+" "+column, got[i]/r.float(t, column), 1, 1e-9)
			}
		}
	}
}

func TestNoTrialsTellNothing(t *testing.T) {
	none, some := Tally{}, Tally{3, 5}
	if got := Newcombe(none, some, 0.95); got != (Interval{-1, 1}) {
		t.Errorf("Newcombe of nothing is %v, want [-1, 1]", got)
	}
	if got := Fisher(none, some); got != (FisherTest{1, 1, 1}) {
		t.Errorf("Fisher of nothing is %v, want 1 throughout", got)
	}
	if _, ok := Homogeneity([]Tally{none, some}); ok {
		t.Error("one group has a chi-square")
	}
}

func TestTwoProportionProperties(t *testing.T) {
	tally := rapid.Custom(func(t *rapid.T) Tally {
		n := rapid.IntRange(1, 300).Draw(t, "n")
		return Tally{rapid.IntRange(0, n).Draw(t, "x"), n}
	})
	rapid.Check(t, func(t *rapid.T) {
		a, b := tally.Draw(t, "a"), tally.Draw(t, "b")
		w := Widening{rapid.Float64Range(0, 5).Draw(t, "factor"), rapid.IntRange(1, 30).Draw(t, "df")}

		plain, wide := Newcombe(a, b, 0.95), NewcombeWide(a, b, w, w, 0.95)
		if !plain.contains(a.Rate() - b.Rate()) {
			t.Fatalf("%v leaves out the difference", plain)
		}
		if wide.Low > plain.Low+1e-12 || wide.High < plain.High-1e-12 {
			t.Fatalf("wide %v lies within plain %v", wide, plain)
		}
		back := Newcombe(b, a, 0.95)
		if math.Abs(back.Low+plain.High) > 1e-12 || math.Abs(back.High+plain.Low) > 1e-12 {
			t.Fatalf("turned about, %v is not the mirror of %v", back, plain)
		}

		ab, ba := Fisher(a, b), Fisher(b, a)
		if math.Abs(ab.TwoSided-ba.TwoSided) > 1e-9 || math.Abs(ab.Less-ba.Greater) > 1e-9 {
			t.Fatalf("Fisher is %v one way and %v the other", ab, ba)
		}
		if ab.TwoSided < min(ab.Less, ab.Greater)-1e-9 || ab.Less+ab.Greater < 1-1e-9 {
			t.Fatalf("Fisher's p-values contradict each other: %v", ab)
		}
	})
}
