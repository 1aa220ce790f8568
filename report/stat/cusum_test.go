package stat

import (
	"slices"
	"testing"
)

// Formulas of M. R. Reynolds and Z. G. Stoumbos (1999), Journal of Quality
// Technology 31:87-108 (from memory); run lengths computed with R 4.2.2 and
// checked by simulation.
func TestCusum(t *testing.T) {
	var all struct {
		Cusum struct {
			References []struct {
				P0, P1, Gamma float64
			} `json:"reference_values"`
			ARL []struct {
				K    string
				H    int
				Good float64 `json:"arl_p0"`
				Bad  float64 `json:"arl_p1"`
			}
			Path struct {
				Failures, N []int
				Good        float64 `json:"p0_fail"`
				Bad         float64 `json:"p1_fail"`
				H           float64
				S           []float64
				First       int `json:"first_signal"`
			}
		}
	}
	readCase(t, "08_monitor.json", &all)
	for _, r := range all.Cusum.References {
		near(t, "reference value", CusumReference(r.P0, r.P1), r.Gamma, 1e-9)
	}
	for _, r := range all.Cusum.ARL {
		if r.K != "3/10" {
			t.Fatalf("reference value %s", r.K)
		}
		// Good and bad rates are those of the path below.
		for rate, want := range map[float64]float64{0.2: r.Good, 0.4: r.Bad} {
			got, ok := CusumRunLength(rate, 3, 10, r.H)
			if !ok {
				t.Fatalf("no run length for limit %d", r.H)
			}
			near(t, "run length", got/want, 1, 1e-9)
		}
	}
	p := all.Cusum.Path
	var batches []Tally
	for i, x := range p.Failures {
		batches = append(batches, Tally{x, p.N[i]})
	}
	path := Cusum(batches, CusumReference(p.Good, p.Bad))
	for i, got := range path {
		near(t, "path", got, p.S[i], 1e-9)
	}
	first := 1 + slices.IndexFunc(path, func(s float64) bool { return s >= p.H })
	if first != p.First {
		t.Errorf("first signal at batch %d, want %d", first, p.First)
	}
}
