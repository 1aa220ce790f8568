package stat

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
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
	// Whichever level is the reference, the fit is the same.
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

// fieldGrafts reads lines of levels and a count such as "Ru whip 8/10".
func fieldGrafts(t *testing.T, names string, lines ...string) Logistic {
	t.Helper()
	factors := strings.Fields(names)
	values := make([][]string, len(factors))
	var l Logistic
	for _, line := range lines {
		words := strings.Fields(line)
		var tally Tally
		if _, err := fmt.Sscanf(words[len(factors)], "%d/%d", &tally.X, &tally.N); err != nil {
			t.Fatal(err)
		}
		l.Counts = append(l.Counts, tally)
		for i := range factors {
			values[i] = append(values[i], words[i])
		}
	}
	for i, name := range factors {
		l.Factors = append(l.Factors, factorOf(name, values[i]))
	}
	return l
}

func TestLogisticAliased(t *testing.T) {
	// Ines did every bark graft, and nothing else.
	fit := mustFit(t, fieldGrafts(t, "worker method",
		"Ru whip 30/40", "Ru cleft 20/40", "Ines bark 10/30", "Ines bark 16/30"))
	want := []Alias{{Level{"worker", "Ines"}, []Level{{"method", "bark"}}}}
	if diff := cmp.Diff(want, fit.Aliased); diff != "" {
		t.Errorf("aliased: %s", diff)
	}
	var tested []string
	for _, test := range fit.Tests {
		tested = append(tested, test.Factor)
	}
	if !slices.Equal(tested, []string{"method"}) {
		t.Errorf("tests of %v: the hand adds nothing to the method", tested)
	}
	if _, ok := fit.Contrast("worker", "Ines", "Ru"); ok {
		t.Error("the hands are compared")
	}

	// Two mothers a variety: each variety is the sum of its mothers.
	fit = mustFit(t, fieldGrafts(t, "mother variety",
		"K1 Amberlight 10/20", "K2 Amberlight 12/20", "K3 Firstfig 5/20", "K4 Firstfig 9/20"))
	want = []Alias{{Level{"variety", "Firstfig"}, []Level{{"mother", "K3"}, {"mother", "K4"}}}}
	if diff := cmp.Diff(want, fit.Aliased); diff != "" {
		t.Errorf("aliased: %s", diff)
	}
}

func TestLogisticSeparated(t *testing.T) {
	// No chip bud took, every veneer did; the rest is as if they were not.
	mixed := []string{"whip May 8/10", "whip June 4/10", "cleft May 5/10", "cleft June 3/10"}
	all := append([]string{"chip May 0/7", "veneer June 6/6", "chip June 0/9"}, mixed...)
	fit := mustFit(t, fieldGrafts(t, "method month", all...))
	plain := mustFit(t, fieldGrafts(t, "method month", mixed...))
	want := []Separation{
		{Level{"method", "chip"}, NoSuccess},
		{Level{"method", "veneer"}, AllSuccess},
	}
	if diff := cmp.Diff(want, fit.Separated); diff != "" {
		t.Errorf("separated: %s", diff)
	}
	if diff := cmp.Diff(plain.Terms, fit.Terms); diff != "" {
		t.Errorf("terms differ from those without the separated rows: %s", diff)
	}
	near(t, "deviance", fit.Deviance, plain.Deviance, 1e-9)
	if fit.Tests[0].DF != 3 || !(fit.Tests[0].P < 0.01) {
		t.Errorf("test of the method: %+v, want three degrees of freedom and a small p", fit.Tests[0])
	}

	// No level by itself is all or nothing, yet only May's clefts and June's
	// whips can have a bounded chance: 5/10 and 3/10.
	fit = mustFit(t, fieldGrafts(t, "method month",
		"cleft May 5/10", "cleft June 0/10", "whip May 10/10", "whip June 3/10"))
	saturated := -2 * (binomialLogLik(5, 10, 0.5) + binomialLogLik(3, 10, 0.3))
	near(t, "log likelihood", -2*fit.fit.logLik, saturated, 1e-9)
	var joint []Level
	for _, s := range fit.Separated {
		if s.Side == Jointly {
			joint = append(joint, s.Level)
		}
	}
	if len(joint) == 0 {
		t.Errorf("separated: %v", fit.Separated)
	}

	// All took or none did, method by method: nothing is left to estimate.
	fit = mustFit(t, fieldGrafts(t, "method", "whip 10/10", "cleft 0/8"))
	if fit.Intercept != nil || len(fit.Terms) != 0 || len(fit.Separated) != 2 {
		t.Errorf("fit %+v", fit)
	}
	near(t, "test", fit.Tests[0].Statistic, fit.NullDeviance, 1e-9)
}

func TestLogisticOfLittle(t *testing.T) {
	two := Factor{"method", []string{"whip", "cleft"}, []int{0, 1}}
	for name, c := range map[string]struct {
		counts []Tally
		want   error
	}{
		"nothing known": {[]Tally{{}, {}}, ErrNothingKnown},
		"none took":     {[]Tally{{0, 5}, {0, 3}}, ErrOneOutcome},
		"all took":      {[]Tally{{5, 5}, {3, 3}}, ErrOneOutcome},
	} {
		_, err := Logistic{Counts: c.counts, Factors: []Factor{two}, Confidence: 0.95}.Fit()
		if !errors.Is(err, c.want) {
			t.Errorf("%s: error %v, want %v", name, err, c.want)
		}
	}
	fit := mustFit(t, Logistic{Counts: []Tally{{3, 5}, {}}, Factors: []Factor{two}})
	if !slices.Equal(fit.Constant, []string{"method"}) || len(fit.Terms) != 0 || len(fit.Tests) != 0 {
		t.Errorf("one level known: %+v", fit)
	}
	near(t, "its intercept", fit.Intercept.Value, math.Log(3.0/2), 1e-9)
	near(t, "error of it", fit.Intercept.StdError, math.Sqrt(1.0/3+1.0/2), 1e-9)
}

func TestLogisticTooManyLevels(t *testing.T) {
	const rows = 2*columnLimit + 10
	l := Logistic{Factors: []Factor{{Name: "lot"}, {Name: "day"}}, Confidence: 0.95}
	for f := range l.Factors {
		for i := range rows / (f + 1) {
			l.Factors[f].Levels = append(l.Factors[f].Levels, fmt.Sprint(i))
		}
	}
	for i := range rows {
		l.Counts = append(l.Counts, Tally{1, 2})
		for f := range l.Factors {
			l.Factors[f].At = append(l.Factors[f].At, i/(f+1))
		}
	}
	_, err := l.Fit()
	var tooMany *TooManyLevelsError
	if !errors.As(err, &tooMany) || tooMany.Columns != rows/2-1 {
		t.Errorf("error %v, want %d columns too many", err, rows/2-1)
	}
}

// Ten thousand levels are no trouble in the largest factor, and each has the
// closed form of a two by two table against the reference.
func TestLogisticManyLevels(t *testing.T) {
	const levels = 10_000
	l := Logistic{Factors: []Factor{{Name: "lot"}}}
	for i := range levels {
		l.Counts = append(l.Counts, Tally{1 + i%7, 9})
		l.Factors[0].Levels = append(l.Factors[0].Levels, fmt.Sprint(i))
		l.Factors[0].At = append(l.Factors[0].At, i)
	}
	fit := mustFit(t, l)
	if len(fit.Terms) != levels-1 {
		t.Fatalf("%d terms, want %d", len(fit.Terms), levels-1)
	}
	for i, term := range fit.Terms {
		ratio, _ := OddsRatio(l.Counts[i+1], l.Counts[0])
		if math.Abs(term.OddsRatio/ratio-1) > 1e-9 {
			t.Fatalf("level %d has the odds ratio %v, want %v", i+1, term.OddsRatio, ratio)
		}
	}
}

// drawLogistic draws rows of three factors of a few levels each.
func drawLogistic(t *rapid.T) Logistic {
	n := rapid.IntRange(2, 30).Draw(t, "rows")
	l := Logistic{Confidence: 0.95}
	for _, name := range []string{"method", "worker", "month"} {
		k := rapid.IntRange(1, 4).Draw(t, name+" levels")
		f := Factor{Name: name, At: rapid.SliceOfN(rapid.IntRange(0, k-1), n, n).Draw(t, name)}
		for i := range k {
			f.Levels = append(f.Levels, fmt.Sprint(name, i))
		}
		l.Factors = append(l.Factors, f)
	}
	if rapid.Bool().Draw(t, "interaction") {
		l.Interactions = [][2]int{{0, 1}}
	}
	for range n {
		trials := rapid.IntRange(0, 30).Draw(t, "trials")
		l.Counts = append(l.Counts, Tally{rapid.IntRange(0, trials).Draw(t, "successes"), trials})
	}
	return l
}

func TestLogisticProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLogistic(t)
		fit, err := l.Fit()
		if err != nil {
			return
		}
		checkFit(t, fit)

		// The order of rows does not matter.
		turned := l
		turned.Counts = slices.Clone(l.Counts)
		slices.Reverse(turned.Counts)
		turned.Factors = slices.Clone(l.Factors)
		for f := range turned.Factors {
			turned.Factors[f].At = slices.Clone(l.Factors[f].At)
			slices.Reverse(turned.Factors[f].At)
		}
		again, err := turned.Fit()
		if err != nil {
			t.Fatal(err)
		}
		if len(again.Terms) != len(fit.Terms) || math.Abs(again.Deviance-fit.Deviance) > 1e-7 {
			t.Fatalf("the order of rows matters: %+v and %+v", fit, again)
		}
		for i, term := range fit.Terms {
			if term.Level != again.Terms[i].Level || math.Abs(term.Value-again.Terms[i].Value) > 1e-5*(1+math.Abs(term.Value)) {
				t.Fatalf("the order of rows matters: %+v and %+v", term, again.Terms[i])
			}
		}

		// Nor which factor comes first, which changes the one eliminated.
		first := l
		first.Factors = slices.Clone(l.Factors)
		slices.Reverse(first.Factors)
		if l.Interactions != nil {
			first.Interactions = [][2]int{{1, 2}}
		}
		again, err = first.Fit()
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(again.Deviance-fit.Deviance) > 1e-7 || again.Dispersion.DF != fit.Dispersion.DF {
			t.Fatalf("the order of factors matters: %+v and %+v", fit, again)
		}
	})
}

// checkFit tests what defines the maximum: in the finite part, fitted and seen
// successes agree in every level of every factor.
func checkFit(t *rapid.T, fit *LogisticFit) {
	if fit.Deviance < -1e-9 || fit.Deviance > fit.NullDeviance+1e-9 {
		t.Fatalf("deviance %v, null %v", fit.Deviance, fit.NullDeviance)
	}
	for _, test := range fit.Tests {
		if !(test.P >= 0 && test.P <= 1) || test.DF < 1 {
			t.Fatalf("test %+v", test)
		}
	}
	for _, term := range fit.Terms {
		if !(term.StdError > 0) || !(term.Low <= term.OddsRatio && term.OddsRatio <= term.High) || !(term.P >= 0 && term.P <= 1) {
			t.Fatalf("term %+v", term)
		}
	}
	finite := fit.fit.finite
	if finite == nil {
		return
	}
	for _, e := range fit.model.terms() {
		seen, fitted := map[levels]float64{}, map[levels]float64{}
		for i, c := range finite.cells {
			seen[e.of(c)] += c.x
			fitted[e.of(c)] += c.n * finite.p[i]
		}
		for at, x := range seen {
			if math.Abs(x-fitted[at]) > 1e-5 {
				t.Fatalf("%s: %v seen, %v fitted", fit.model.level(e, at), x, fitted[at])
			}
		}
	}
}

// Of a single factor the fit is the table itself: the log of the cross product
// and its error after B. Woolf (1955), sqrt(1/a+1/b+1/c+1/d).
func TestLogisticOfOneFactor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.IntRange(2, 6).Draw(t, "levels")
		l := Logistic{Factors: []Factor{{Name: "method"}}, Confidence: 0.95}
		for i := range k {
			n := rapid.IntRange(2, 100).Draw(t, "n")
			l.Counts = append(l.Counts, Tally{rapid.IntRange(1, n-1).Draw(t, "x"), n})
			l.Factors[0].Levels = append(l.Factors[0].Levels, fmt.Sprint(i))
			l.Factors[0].At = append(l.Factors[0].At, i)
		}
		fit, err := l.Fit()
		if err != nil {
			t.Fatal(err)
		}
		for _, term := range fit.Terms {
			a := l.Counts[slices.Index(l.Factors[0].Levels, term.Name)]
			b := l.Counts[slices.Index(l.Factors[0].Levels, term.Against)]
			ratio, _ := OddsRatio(a, b)
			woolf := math.Sqrt(1/float64(a.X) + 1/float64(a.N-a.X) + 1/float64(b.X) + 1/float64(b.N-b.X))
			if math.Abs(term.OddsRatio/ratio-1) > 1e-8 || math.Abs(term.StdError-woolf) > 1e-8 {
				t.Fatalf("%+v, want odds ratio %v and error %v", term, ratio, woolf)
			}
		}
	})
}

// season is a table of lots with three factors of the given numbers of
// levels, each of which moves the log odds.
func season(lots int, sizes [3]int) Logistic {
	random := rand.New(rand.NewPCG(1, 2))
	l := Logistic{Counts: make([]Tally, lots), Confidence: 0.95}
	eta := make([]float64, lots)
	for f, size := range sizes {
		factor := Factor{Name: fmt.Sprint("factor", f), At: make([]int, lots)}
		effects := make([]float64, size)
		for i := range size {
			factor.Levels = append(factor.Levels, fmt.Sprint(i))
			effects[i] = random.NormFloat64() / 2
		}
		for i := range lots {
			factor.At[i] = random.IntN(size)
			eta[i] += effects[factor.At[i]]
		}
		l.Factors = append(l.Factors, factor)
	}
	for i := range lots {
		p := 1 / (1 + math.Exp(-eta[i]))
		l.Counts[i].N = 5 + random.IntN(40)
		for range l.Counts[i].N {
			if random.Float64() < p {
				l.Counts[i].X++
			}
		}
	}
	return l
}

func BenchmarkLogistic(b *testing.B) {
	for name, sizes := range map[string][3]int{
		"5 methods, 8 workers, 12 months":   {5, 8, 12},
		"5 methods, 50 mothers, 10000 lots": {5, 50, 10_000},
		"5 methods, 400 mothers, 5000 lots": {5, 400, 5_000},
	} {
		b.Run(name, func(b *testing.B) {
			l := season(100_000, sizes)
			b.ReportAllocs()
			for b.Loop() {
				if _, err := l.Fit(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
