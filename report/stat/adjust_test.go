package stat

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// The fifteen p-values of Y. Benjamini and Y. Hochberg (1995), section 4.1
// (from memory), adjusted with p.adjust of R 4.2.2.
func TestHolm(t *testing.T) {
	rows := readTable(t, "02_padjust.csv")
	var p []float64
	for _, r := range rows {
		p = append(p, r.float(t, "p"))
	}
	for i, got := range Holm(p) {
		near(t, "adjusted "+rows[i]["p"], got, rows[i].float(t, "holm"), 1e-9)
	}
}

func TestHolmProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.SliceOf(rapid.Float64Range(0, 1)).Draw(t, "p")
		holm := Holm(p)
		for i := range p {
			if holm[i] < p[i] || holm[i] > min(1, float64(len(p))*p[i])+1e-12 {
				t.Fatalf("%v is adjusted to %v, of %d tests", p[i], holm[i], len(p))
			}
			for j := range p {
				if p[i] < p[j] && holm[i] > holm[j] {
					t.Fatalf("Holm turns %v and %v about", p[i], p[j])
				}
			}
		}
		turned := slices.Clone(p)
		slices.Reverse(turned)
		again := Holm(turned)
		slices.Reverse(again)
		if !slices.Equal(again, holm) {
			t.Fatalf("Holm depends on the order given: %v and %v", holm, again)
		}
	})
}
