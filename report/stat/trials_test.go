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
		n, ok := Certain(p).TrialsFor(k, sure)
		if want := r.int(t, "n"); !ok || n != want {
			t.Errorf("%s: %d trials, ok %v, want %d", r["id"], n, ok, want)
			continue
		}
		near(t, r["id"]+" chance", BinomialAtLeast(k, n, p), r.float(t, "prob_at_n"), 1e-9)
		near(t, r["id"]+" chance with one fewer", BinomialAtLeast(k, n-1, p), r.float(t, "prob_at_n_minus_1"), 1e-9)
	}
}

// The number found is enough, and one fewer is not.
func TestTrialsForProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.IntRange(1, 200).Draw(t, "k")
		p := rapid.Float64Range(0.05, 1).Draw(t, "p")
		sure := rapid.Float64Range(0.5, 0.99).Draw(t, "sure")
		n, ok := Certain(p).TrialsFor(k, sure)
		if !ok || n < k {
			t.Fatalf("%d trials for %d, ok %v", n, k, ok)
		}
		if BinomialAtLeast(k, n, p) < sure-1e-9 || BinomialAtLeast(k, n-1, p) >= sure {
			t.Fatalf("%d trials are not the fewest for %d", n, k)
		}
	})
}
