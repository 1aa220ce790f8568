package stat

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// The limits of the grid were computed with R 4.2.2 (qnorm) and a second time
// in exact arithmetic.
func TestWilsonOfGrid(t *testing.T) {
	for _, r := range readTable(t, "01_oneprop_grid.csv") {
		x, n, conf := r.int(t, "x"), r.int(t, "n"), r.float(t, "conf")
		nearInterval(t, r["id"], Wilson(x, n, conf), r.float(t, "wilson_lo"), r.float(t, "wilson_hi"), 1e-9)
	}
}

// Table I of R. G. Newcombe (1998), Statistics in Medicine 17:857-872.
func TestWilsonAsPrinted(t *testing.T) {
	var table struct {
		Cases []struct {
			ID        string
			X, N      int
			Conf      float64
			Tolerance float64              `json:"published_tolerance"`
			Published map[string][]float64 `json:"published"`
		}
	}
	readCase(t, "01_oneprop_published.json", &table)
	for _, c := range table.Cases {
		printed := c.Published["wilson"]
		nearInterval(t, c.ID, Wilson(c.X, c.N, c.Conf), printed[0], printed[1], c.Tolerance)
	}
}

func TestWilsonOfNothing(t *testing.T) {
	if got := Wilson(0, 0, 0.95); got != (Interval{0, 1}) {
		t.Errorf("Wilson(0, 0) = %v, want [0, 1]", got)
	}
}

func TestWilsonProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 100_000).Draw(t, "n")
		x := rapid.IntRange(0, n).Draw(t, "x")
		conf := rapid.Float64Range(0.5, 0.999).Draw(t, "conf")
		got := Wilson(x, n, conf)
		if !(0 <= got.Low && got.Low < got.High && got.High <= 1) {
			t.Fatalf("%v is no interval of a rate", got)
		}
		if !got.contains(float64(x) / float64(n)) {
			t.Fatalf("%v leaves out the rate itself", got)
		}
		mirror := Wilson(n-x, n, conf)
		if math.Abs(got.Low+mirror.High-1) > 1e-9 || math.Abs(got.High+mirror.Low-1) > 1e-9 {
			t.Fatalf("%v is not the mirror of %v", got, mirror)
		}
		more := Wilson(2*x, 2*n, conf)
		if more.High-more.Low >= got.High-got.Low {
			t.Fatalf("twice the trials give %v, no narrower than %v", more, got)
		}
		surer := Wilson(x, n, (1+conf)/2)
		if surer.High-surer.Low <= got.High-got.Low {
			t.Fatalf("more confidence gives %v, no wider than %v", surer, got)
		}
	})
}

func TestWilsonEffective(t *testing.T) {
	if got, want := WilsonEffective(0.3, 50, 0.95), Wilson(15, 50, 0.95); got != want {
		t.Errorf("a whole number of trials gives %v, want Wilson's %v", got, want)
	}
	half, full := WilsonEffective(0.3, 25.5, 0.95), WilsonEffective(0.3, 51, 0.95)
	if !(half.Low < full.Low && full.High < half.High) {
		t.Errorf("half the information gives %v, no wider than %v", half, full)
	}
}

func TestImpossibleCountsPanic(t *testing.T) {
	for name, call := range map[string]func(){
		"negative":        func() { Wilson(-1, 5, 0.95) },
		"more than all":   func() { Wilson(6, 5, 0.95) },
		"certainty":       func() { Wilson(1, 5, 1) },
		"no confidence":   func() { Wilson(1, 5, 0) },
		"rate of NaN":     func() { WilsonEffective(math.NaN(), 5, 0.95) },
		"trials negative": func() { WilsonEffective(0.5, -1, 0.95) },
	} {
		t.Run(name, func(t *testing.T) {
			defer func() {
				if recover() == nil {
					t.Error("no panic")
				}
			}()
			call()
		})
	}
}
