package stat

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

var adjustments = map[string]func([]float64) []float64{
	"holm":       Holm,
	"BH":         BenjaminiHochberg,
	"bonferroni": Bonferroni,
	"hochberg":   Hochberg,
}

// The fifteen p-values of Y. Benjamini and Y. Hochberg (1995), section 4.1
// (from memory), adjusted with p.adjust of R 4.2.2.
func TestAdjustments(t *testing.T) {
	rows := readTable(t, "02_padjust.csv")
	var p []float64
	for _, r := range rows {
		p = append(p, r.float(t, "p"))
	}
	for column, method := range adjustments {
		for i, got := range method(p) {
			near(t, column+" of "+rows[i]["p"], got, rows[i].float(t, column), 1e-9)
		}
	}
}

func TestAdjustmentProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.SliceOf(rapid.Float64Range(0, 1)).Draw(t, "p")
		holm, hochberg, bh, bonferroni := Holm(p), Hochberg(p), BenjaminiHochberg(p), Bonferroni(p)
		for i := range p {
			chain := []float64{p[i], bh[i], hochberg[i], holm[i], bonferroni[i], 1}
			if !sortedWithin(chain, 1e-12) {
				t.Fatalf("raw, BH, Hochberg, Holm, Bonferroni out of order: %v", chain)
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

// sortedWithin reports whether values never fall by more than slack.
func sortedWithin(values []float64, slack float64) bool {
	for i := 1; i < len(values); i++ {
		if values[i] < values[i-1]-slack {
			return false
		}
	}
	return true
}
