package stat

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// factorOf sorts rows into the levels that they name, in order of first use.
func factorOf(name string, values []string) Factor {
	f := Factor{Name: name}
	for _, v := range values {
		at := slices.Index(f.Levels, v)
		if at < 0 {
			at = len(f.Levels)
			f.Levels = append(f.Levels, v)
		}
		f.At = append(f.At, at)
	}
	return f
}

func columnOf(rows []row, name string) []string {
	var values []string
	for _, r := range rows {
		values = append(values, r[name])
	}
	return values
}

func mustFit(t *testing.T, l Logistic) *LogisticFit {
	t.Helper()
	if l.Confidence == 0 {
		l.Confidence = 0.95
	}
	fit, err := l.Fit()
	if err != nil {
		t.Fatal(err)
	}
	return fit
}

type coefficient struct{ Est, SE float64 }

type glmCase struct {
	Coef         map[string]coefficient
	Deviance     float64
	NullDeviance float64 `json:"null_deviance"`
	DF           int
	Quasi        struct {
		Pearson    float64
		DF         int
		Dispersion float64
		SE         map[string]float64 `json:"quasi_se"`
	}
}

// glmSlack is for the standard errors of R's glm: it takes them from the step
// before the last, and stops when the deviance changes by less than 1e-8 of
// itself, which leaves them some 3e-5 of themselves from those at the maximum.
const glmSlack = 5e-5

// checkTerms compares a fit with the coefficients of R, whose names are those
// of factor and level run together, parts of an interaction joined by a colon.
func checkTerms(t *testing.T, fit *LogisticFit, want map[string]coefficient) {
	t.Helper()
	near(t, "intercept", fit.Intercept.Value, want["(Intercept)"].Est, 1e-6)
	near(t, "its error", fit.Intercept.StdError/want["(Intercept)"].SE, 1, glmSlack)
	if len(fit.Terms) != len(want)-1 {
		t.Errorf("%d terms, want %d", len(fit.Terms), len(want)-1)
	}
	for _, term := range fit.Terms {
		factors, names := strings.Split(term.Factor, " × "), strings.Split(term.Name, " × ")
		for i, f := range factors {
			factors[i] = f + names[i]
		}
		name := strings.Join(factors, ":")
		coef, ok := want[name]
		if !ok {
			t.Errorf("no coefficient %s", name)
			continue
		}
		near(t, name, term.Value, coef.Est, 1e-6)
		near(t, name+" error", term.StdError/coef.SE, 1, glmSlack)
		near(t, name+" odds ratio", term.OddsRatio, math.Exp(coef.Est), 1e-5*math.Exp(coef.Est))
	}
}

func plum(t *testing.T) Logistic {
	rows := readTable(t, "03_plum_root_cuttings.csv")
	l := Logistic{Factors: []Factor{
		factorOf("length", columnOf(rows, "length")),
		factorOf("time", columnOf(rows, "time")),
	}}
	for _, r := range rows {
		l.Counts = append(l.Counts, Tally{r.int(t, "alive"), r.int(t, "n")})
	}
	return l
}

// The plum root cuttings of M. S. Bartlett (1935), Supplement to the Journal
// of the Royal Statistical Society 2:248-252; computed with glm of R 4.2.2.
func TestLogisticOfPlum(t *testing.T) {
	var want struct {
		Main        glmCase `json:"glm_main"`
		Interaction glmCase `json:"glm_interaction"`
		LR          struct {
			Length float64 `json:"length_given_time"`
			Time   float64 `json:"time_given_length"`
		} `json:"lr_tests"`
		Published struct {
			NoThreeWay float64 `json:"lr_no_three_way"`
			Mutual     float64 `json:"lr_mutual_independence"`
		}
	}
	readCase(t, "03_plum_root_cuttings.json", &want)
	l := plum(t)
	fit := mustFit(t, l)
	// The reference has plain errors; the fit widens them by its dispersion.
	widening := math.Sqrt(fit.Dispersion.Phi())
	for name, c := range want.Main.Coef {
		want.Main.Coef[name] = coefficient{c.Est, c.SE * widening}
	}
	checkTerms(t, fit, want.Main.Coef)
	near(t, "deviance", fit.Deviance, want.Main.Deviance, 1e-6)
	near(t, "deviance as printed", fit.Deviance, want.Published.NoThreeWay, 5e-6)
	near(t, "null deviance", fit.NullDeviance, want.Main.NullDeviance, 1e-6)
	near(t, "null deviance as printed", fit.NullDeviance, want.Published.Mutual, 5e-5)
	for i, lr := range []float64{want.LR.Length, want.LR.Time} {
		got := fit.Tests[i]
		near(t, got.Factor, got.Statistic*float64(got.DF)*fit.Dispersion.Phi(), lr, 1e-6)
	}

	l.Interactions = [][2]int{{0, 1}}
	full := mustFit(t, l)
	checkTerms(t, full, want.Interaction.Coef)
	near(t, "deviance of the full fit", full.Deviance, 0, 1e-6)
	if full.Dispersion.DF != 0 || full.Dispersion.Phi() != 1 {
		t.Errorf("a full fit has dispersion %+v", full.Dispersion)
	}
	last := full.Tests[len(full.Tests)-1]
	near(t, "test of the interaction", last.Statistic, want.Published.NoThreeWay, 5e-6)
}

func germination(t *testing.T) Logistic {
	rows := plates(t)
	l := Logistic{Factors: []Factor{
		factorOf("temp", columnOf(rows, "temp")),
		factorOf("concf", columnOf(rows, "conc")),
	}}
	for _, r := range rows {
		l.Counts = append(l.Counts, plateTally(t, r))
	}
	return l
}

// The germination plates of R. Mead, R. N. Curnow and A. M. Hasted (2002),
// Statistical Methods in Agriculture and Experimental Biology, 3rd edition,
// pages 350-351, with the deviances printed there; computed with glm of
// R 4.2.2, family quasibinomial.
func TestLogisticOfPlates(t *testing.T) {
	var want struct {
		Published struct {
			Deviance map[string]float64 `json:"residual_deviance"`
		}
		Main        glmCase `json:"glm_main"`
		Interaction glmCase `json:"glm_interaction"`
	}
	readCase(t, "03_seed_germination_plates.json", &want)
	printed := want.Published.Deviance
	for name, c := range map[string]struct {
		interactions [][2]int
		glm          glmCase
		printed      float64
	}{
		"additive": {nil, want.Main, printed["additive"]},
		"full":     {[][2]int{{1, 0}}, want.Interaction, printed["full"]},
	} {
		t.Run(name, func(t *testing.T) {
			l := germination(t)
			l.Interactions = c.interactions
			fit := mustFit(t, l)
			for coef, se := range c.glm.Quasi.SE {
				c.glm.Coef[coef] = coefficient{c.glm.Coef[coef].Est, se}
			}
			checkTerms(t, fit, c.glm.Coef)
			near(t, "deviance", fit.Deviance, c.glm.Deviance, 1e-6)
			near(t, "deviance as printed", fit.Deviance, c.printed, 6e-3)
			near(t, "null deviance as printed", fit.NullDeviance, printed["null"], 6e-2)
			near(t, "Pearson", fit.Dispersion.Pearson, c.glm.Quasi.Pearson, 1e-6)
			near(t, "dispersion", fit.Dispersion.Phi(), c.glm.Quasi.Dispersion, 1e-6)
			if fit.Dispersion.DF != c.glm.DF {
				t.Errorf("%d degrees of freedom, want %d", fit.Dispersion.DF, c.glm.DF)
			}
		})
	}
	// The errors at the maximum itself, computed with 30 digits in mpmath 1.3.0.
	fit := mustFit(t, germination(t))
	near(t, "error of the intercept", fit.Intercept.StdError, 0.195605833313015, 1e-9)
	for i, want := range []float64{
		0.188973654293856, 0.23432952071623, 0.19190387694686,
		0.219128181918358, 0.216090376733134, 0.218520464245837,
	} {
		near(t, "error of "+fit.Terms[i].Name, fit.Terms[i].StdError, want, 1e-9)
	}
	// Each factor's test is the fall in deviance that it brings, over its
	// degrees of freedom and the dispersion.
	for i, without := range []float64{printed["conc"], printed["temp"]} {
		got := fit.Tests[i]
		if got.DF != 3 || got.ErrorDF != 57 {
			t.Errorf("%s: F on %d and %d, want 3 and 57", got.Factor, got.DF, got.ErrorDF)
		}
		change := got.Statistic * 3 * want.Main.Quasi.Dispersion
		near(t, got.Factor, change, without-printed["additive"], 6e-2)
	}
}

func TestLogisticContrast(t *testing.T) {
	fit := mustFit(t, germination(t))
	for _, term := range fit.Terms {
		same, ok := fit.Contrast(term.Factor, term.Name, term.Against)
		if !ok || same != term {
			t.Errorf("contrast %+v, term %+v", same, term)
		}
		turned, ok := fit.Contrast(term.Factor, term.Against, term.Name)
		if !ok {
			t.Fatal("no contrast")
		}
		near(t, "turned about", turned.OddsRatio*term.OddsRatio, 1, 1e-9)
		near(t, "its error", turned.StdError, term.StdError, 1e-9)
	}
	for _, bad := range [][3]string{{"temp", "T1", "T1"}, {"temp", "T9", "T1"}, {"light", "T1", "T2"}} {
		if term, ok := fit.Contrast(bad[0], bad[1], bad[2]); ok {
			t.Errorf("a contrast of %v: %+v", bad, term)
		}
	}
	// A row without trials changes nothing.
	l := germination(t)
	extra := len(l.Counts)
	l.Counts = append(l.Counts, Tally{})
	for i := range l.Factors {
		l.Factors[i].At = append(l.Factors[i].At, 2)
	}
	if again := mustFit(t, l); again.Rows != extra || cmp.Diff(again.Terms, fit.Terms) != "" {
		t.Error("a row without trials changes the fit")
	}
}
