package stat

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

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

	// One seed in a million came up, which is not none: no separation, though
	// a small lot of the same sort had nothing and the climb is long.
	fit = mustFit(t, fieldGrafts(t, "sort month",
		"old May 1/1000000", "old June 0/3", "new May 40/100", "new June 50/100"))
	if len(fit.Separated) != 0 {
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
		ratio := oddsRatio(l.Counts[i+1], l.Counts[0])
		if math.Abs(term.OddsRatio/ratio-1) > 1e-9 {
			t.Fatalf("level %d has the odds ratio %v, want %v", i+1, term.OddsRatio, ratio)
		}
	}
}
