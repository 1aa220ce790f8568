package stat

import (
	"testing"

	"pgregory.net/rapid"
)

// Computed with R 4.2.2 and a second time in exact arithmetic. Where the
// chance equals the assurance exactly (exact_tie), that number is enough.
func TestTrialsForOfGrid(t *testing.T) {
	for _, r := range readTable(t, "07_min_n_binomial.csv") {
		k, p, sure := r.int(t, "k"), r.float(t, "p"), r.float(t, "a")
		n, ok := TrialsFor(k, p, sure)
		if want := r.int(t, "n"); !ok || n != want {
			t.Errorf("%s: %d trials, ok %v, want %d", r["id"], n, ok, want)
			continue
		}
		near(t, r["id"]+" chance", BinomialAtLeast(k, n, p), r.float(t, "prob_at_n"), 1e-9)
		near(t, r["id"]+" chance with one fewer", BinomialAtLeast(k, n-1, p), r.float(t, "prob_at_n_minus_1"), 1e-9)
	}
}

// Computed with R 4.2.2 and extraDistr 1.9.1.
func TestTrialsForUncertainOfGrid(t *testing.T) {
	for _, r := range readTable(t, "07_min_n_betabinomial.csv") {
		k, alpha, beta, sure := r.int(t, "k"), r.float(t, "alpha"), r.float(t, "beta"), r.float(t, "a")
		n, ok := TrialsForUncertain(k, alpha, beta, sure)
		if want := r.int(t, "n"); !ok || n != want {
			t.Errorf("%v: %d trials, ok %v, want %d", r, n, ok, want)
			continue
		}
		near(t, "chance", BetaBinomial{alpha, beta, n}.AtLeast(k), r.float(t, "prob_at_n"), 1e-9)
		near(t, "chance with one fewer", BetaBinomial{alpha, beta, n - 1}.AtLeast(k), r.float(t, "prob_at_n_minus_1"), 1e-9)
	}
}

// Stages in a row: what comes through all of them has the product of the
// rates. Computed with R 4.2.2.
func TestTrialsForStagesInARow(t *testing.T) {
	var all struct {
		Chained []struct {
			K     int
			Rates []float64 `json:"stage_rates"`
			A     float64
			N     int
		}
	}
	readCase(t, "07_sowing.json", &all)
	for _, c := range all.Chained {
		p := 1.0
		for _, rate := range c.Rates {
			p *= rate
		}
		if n, ok := TrialsFor(c.K, p, c.A); !ok || n != c.N {
			t.Errorf("%d through %v: %d, ok %v, want %d", c.K, c.Rates, n, ok, c.N)
		}
	}
}

func TestTrialsOutOfReach(t *testing.T) {
	if n, ok := TrialsFor(5, 0, 0.9); ok {
		t.Errorf("%d trials of chance 0 give 5", n)
	}
	if n, ok := TrialsFor(5, 1, 0.9); !ok || n != 5 {
		t.Errorf("%d trials of chance 1 give 5, ok %v", n, ok)
	}
	if n, ok := TrialsFor(0, 0.3, 0.9); !ok || n != 0 {
		t.Errorf("%d trials give nothing, ok %v", n, ok)
	}
	// Nothing took of twenty: the rate may well be one in a million.
	if n, ok := TrialsForUncertain(1000, 0.5, 20.5, 0.9999); ok {
		t.Errorf("%d trials are enough", n)
	}
}

func TestPlanProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.IntRange(1, 200).Draw(t, "k")
		p := rapid.Float64Range(0.05, 1).Draw(t, "p")
		sure := rapid.Float64Range(0.5, 0.99).Draw(t, "sure")
		n, ok := TrialsFor(k, p, sure)
		if !ok || n < k {
			t.Fatalf("%d trials for %d, ok %v", n, k, ok)
		}
		if got := BinomialSure(n, p, sure); got < k {
			t.Fatalf("%d trials are for %d, yet %d is all that is sure", n, k, got)
		}
		if got := BinomialSure(n-1, p, sure); got >= k {
			t.Fatalf("%d trials already make %d sure", n-1, got)
		}
		// A rate that is well known asks for no more than one known exactly;
		// one less well known, for no fewer when much is to be sure.
		close, ok := TrialsForUncertain(k, 1e9*p, 1e9*(1-p)+1e-3, sure)
		if !ok || close < n-1 || close > n+1 {
			t.Fatalf("a rate as good as known takes %d, a known one %d", close, n)
		}
	})
}
