package stat

import (
	"encoding/json"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// sizes is one sample size for all samples, or one for each.
type sizes []int

func (s *sizes) UnmarshalJSON(text []byte) error {
	var one int
	if json.Unmarshal(text, &one) == nil {
		*s = sizes{one}
		return nil
	}
	return json.Unmarshal(text, (*[]int)(s))
}

// limits is likewise one limit or one for each sample.
type limits []float64

func (l *limits) UnmarshalJSON(text []byte) error {
	var one float64
	if json.Unmarshal(text, &one) == nil {
		*l = limits{one}
		return nil
	}
	return json.Unmarshal(text, (*[]float64)(l))
}

type chartCase struct {
	ID       string
	X        []int
	N        sizes
	Expected struct {
		Centre float64 `json:"p_bar"`
		High   limits  `json:"ucl"`
		Low    limits  `json:"lcl"`
		Above  []int   `json:"signals_above"`
		Below  []int   `json:"signals_below"`
		Z      []float64
	}
}

func (c chartCase) samples() []Tally {
	samples := make([]Tally, len(c.X))
	for i, x := range c.X {
		samples[i] = Tally{x, c.N[i%len(c.N)]}
	}
	return samples
}

// NIST/SEMATECH e-Handbook of Statistical Methods, section 6.3.3.2 (mean and
// size confirmed, counts from memory); An Introduction to Business Statistics,
// example 16.6; batches of varying size computed with R 4.2.2.
func TestPChart(t *testing.T) {
	var all struct {
		Charts []chartCase `json:"p_chart"`
	}
	readCase(t, "08_monitor.json", &all)
	for _, c := range all.Charts {
		chart := NewPChart(c.samples())
		near(t, c.ID+" centre", chart.Centre, c.Expected.Centre, 1e-9)
		for i, point := range chart.Points {
			near(t, c.ID+" low", point.Low, c.Expected.Low[i%len(c.Expected.Low)], 1e-9)
			near(t, c.ID+" high", point.High, c.Expected.High[i%len(c.Expected.High)], 1e-9)
			near(t, c.ID+" z", point.Z, c.Expected.Z[i], 1e-9)
		}
		var above, below []int
		for _, s := range chart.Signals {
			switch s.Kind {
			case AboveLimit:
				above = append(above, s.First+1)
			case BelowLimit:
				below = append(below, s.First+1)
			}
		}
		if !slices.Equal(above, c.Expected.Above) || !slices.Equal(below, c.Expected.Below) {
			t.Errorf("%s: signals above %v and below %v, want %v and %v", c.ID, above, below, c.Expected.Above, c.Expected.Below)
		}
	}
}

func TestPChartRuns(t *testing.T) {
	const high, low, even = 6, 4, 5
	chartOf := func(took ...int) []Signal {
		samples := make([]Tally, len(took))
		for i, x := range took {
			if x >= 0 {
				samples[i] = Tally{x, 10}
			}
		}
		return NewPChart(samples).Signals
	}
	const unseen = -1
	for name, c := range map[string]struct {
		took []int
		want []Signal
	}{
		"eight above, eight below": {
			[]int{high, high, high, high, high, high, high, high, low, low, low, low, low, low, low, low},
			[]Signal{{RunAbove, 0, 7}, {RunBelow, 8, 15}},
		},
		"seven are too few": {
			[]int{high, high, high, high, high, high, high, low, low, low, low, low, low, low}, nil,
		},
		"one at the centre breaks a run": {
			[]int{high, high, high, high, even, high, high, high, high, low, low, low, low, even, low, low, low, low}, nil,
		},
		"one unseen does not": {
			[]int{high, high, high, high, unseen, high, high, high, high, low, low, low, low, even, low, low, low, low},
			[]Signal{{RunAbove, 0, 8}},
		},
		"all the same": {[]int{10, 10, 10, 10, 10, 10, 10, 10, 10}, nil},
		"nothing":      {nil, nil},
	} {
		t.Run(name, func(t *testing.T) {
			if got := chartOf(c.took...); !slices.Equal(got, c.want) {
				t.Errorf("got %v, want %v", got, c.want)
			}
		})
	}
}

func TestChartProperties(t *testing.T) {
	tally := rapid.Custom(func(t *rapid.T) Tally {
		n := rapid.IntRange(0, 50).Draw(t, "n")
		return Tally{rapid.IntRange(0, n).Draw(t, "x"), n}
	})
	rapid.Check(t, func(t *rapid.T) {
		samples := rapid.SliceOf(tally).Draw(t, "samples")
		mirror := make([]Tally, len(samples))
		for i, s := range samples {
			mirror[i] = Tally{s.N - s.X, s.N}
		}
		chart, turned := NewPChart(samples), NewPChart(mirror)
		for i, point := range chart.Points {
			if !(0 <= point.Low && point.Low <= point.High && point.High <= 1) {
				t.Fatalf("limits of %v", point)
			}
			if d := point.Z + turned.Points[i].Z; d > 1e-9 || d < -1e-9 {
				t.Fatalf("failures have z %v, successes %v", turned.Points[i].Z, point.Z)
			}
		}
	})
}
