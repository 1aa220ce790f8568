package stat

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"

	"pgregory.net/rapid"
)

// Chains of known rates: 07_sowing.json, "chained", computed with R 4.2.2 from
// the binomial law with the product of the rates.
func TestChainsOfKnownRates(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(references, "07_sowing.json"))
	if err != nil {
		t.Fatal(err)
	}
	var file struct {
		Chained []struct {
			K          int       `json:"k"`
			StageRates []float64 `json:"stage_rates"`
			Overall    float64   `json:"overall"`
			A          float64   `json:"a"`
			N          int       `json:"n"`
		} `json:"chained"`
	}
	if err := json.Unmarshal(text, &file); err != nil || len(file.Chained) == 0 {
		t.Fatalf("%d chains: %v", len(file.Chained), err)
	}
	for _, c := range file.Chained {
		chain := Certain(1)
		for _, p := range c.StageRates {
			chain = chain.Then(Certain(p))
		}
		if math.Abs(chain.Mean()-c.Overall) > 1e-12 {
			t.Errorf("%v: overall %v, want %v", c.StageRates, chain.Mean(), c.Overall)
		}
		if n, ok := chain.TrialsFor(c.K, c.A); !ok || n != c.N {
			t.Errorf("%d by %v, %v sure: %d, want %d", c.K, c.StageRates, c.A, n, c.N)
		}
	}
}

// One link of uncertain chance is the beta-binomial law: 07_min_n_betabinomial.csv,
// computed with R 4.2.2 and extraDistr 1.9.1. The law stands on cells of a 256th
// of sixteen standard deviations, which moves a number by less than one in two
// hundred.
func TestOneUncertainLink(t *testing.T) {
	for _, r := range readTable(t, "07_min_n_betabinomial.csv") {
		law := Outlook{r.float(t, "alpha"), r.float(t, "beta")}.Chance()
		n, ok := law.TrialsFor(r.int(t, "k"), r.float(t, "a"))
		want := r.int(t, "n")
		if !ok || math.Abs(float64(n-want)) > math.Max(1, float64(want)/200) {
			t.Errorf("%v: %d", r, n)
		}
	}
}

// Two links, and a second try, against the sum over all counts in between, by the
// exact beta-binomial probabilities.
func TestLinksAgainstEveryCountBetween(t *testing.T) {
	a, b := Outlook{18.5, 6.5}, Outlook{40, 4}
	const n = 60
	exact := map[string][]float64{"then": make([]float64, n+1), "or then": make([]float64, n+1)}
	for x := range n + 1 {
		first := math.Exp(logBetaBinomial(x, n, a.Alpha, a.Beta))
		for y := range x + 1 {
			exact["then"][y] += first * math.Exp(logBetaBinomial(y, x, b.Alpha, b.Beta))
		}
		for y := range n - x + 1 {
			exact["or then"][x+y] += first * math.Exp(logBetaBinomial(y, n-x, b.Alpha, b.Beta))
		}
	}
	laws := map[string]Chance{"then": a.Chance().Then(b.Chance()), "or then": a.Chance().OrThen(b.Chance())}
	for name, probs := range exact {
		tail := 0.0
		for k := n; k >= 0; k-- {
			tail += probs[k]
			if got := laws[name].AtLeast(k, n); math.Abs(got-tail) > 5e-4 {
				t.Errorf("%s: at least %d: %v, want %v", name, k, got, tail)
			}
		}
	}
}

func TestChanceProperties(t *testing.T) {
	shape := rapid.Float64Range(0.3, 400)
	rapid.Check(t, func(t *rapid.T) {
		a := Outlook{shape.Draw(t, "alpha"), shape.Draw(t, "beta")}
		b := Outlook{shape.Draw(t, "alpha"), shape.Draw(t, "beta")}
		then := a.Chance().Then(b.Chance())
		if got, want := then.Mean(), a.Mean()*b.Mean(); math.Abs(got-want) > 2e-3 {
			t.Errorf("the mean of the product is %v, want %v", got, want)
		}
		if got, want := a.Chance().OrThen(b.Chance()).Mean(), a.Mean()+(1-a.Mean())*b.Mean(); math.Abs(got-want) > 2e-3 {
			t.Errorf("the mean of two tries is %v, want %v", got, want)
		}
		weight := 0.0
		for _, w := range then.weight {
			weight += w
		}
		if math.Abs(weight-1) > 1e-9 {
			t.Errorf("the weights add up to %v", weight)
		}
		p := rapid.Float64Range(0.01, 0.99).Draw(t, "p")
		if q := then.Quantile(p); q < 0 || q > 1 || then.Quantile(p/2) > q {
			t.Errorf("quantiles %v and %v", then.Quantile(p/2), q)
		}
		n := rapid.IntRange(1, 300).Draw(t, "n")
		k := rapid.IntRange(0, n-1).Draw(t, "k")
		if then.AtLeast(k+1, n) > then.AtLeast(k, n)+1e-9 || then.AtLeast(k, n+1) < then.AtLeast(k, n)-1e-9 {
			t.Error("more is likelier, or more trials are worse")
		}
	})
}

func TestNoNumberIsEnough(t *testing.T) {
	if n, ok := Certain(0).TrialsFor(1, 0.9); ok {
		t.Errorf("%d trials of no chance", n)
	}
	if n, ok := Certain(0).TrialsFor(0, 0.9); !ok || n != 0 {
		t.Errorf("%d, %v for none", n, ok)
	}
}
