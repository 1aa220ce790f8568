package stat

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

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
			ratio := oddsRatio(a, b)
			woolf := math.Sqrt(1/float64(a.X) + 1/float64(a.N-a.X) + 1/float64(b.X) + 1/float64(b.N-b.X))
			if math.Abs(term.OddsRatio/ratio-1) > 1e-8 || math.Abs(term.StdError-woolf) > 1e-8 {
				t.Fatalf("%+v, want odds ratio %v and error %v", term, ratio, woolf)
			}
		}
	})
}
