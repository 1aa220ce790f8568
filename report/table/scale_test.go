package table

import (
	"math"
	"slices"
	"strings"
	"testing"

	"golang.org/x/text/language"
	"pgregory.net/rapid"
)

func TestStrip(t *testing.T) {
	nan := math.NaN()
	rate := scale{low: 0, high: 1, reference: nan}
	half := scale{low: 0, high: 1, reference: 0.5}
	odds := scale{low: 1.0 / 32, high: 32, log: true, reference: 1}
	tests := []struct {
		name  string
		scale scale
		span  span
		with  strokes
		want  string
	}{
		{"interval", rate, span{0.2, 0.5, 0.8}, intervalStrokes, "  ├──●──┤  "},
		{"all or nothing", rate, span{0, 1, 1}, intervalStrokes, "├─────────●"},
		{"no interval", rate, span{nan, 0.3, nan}, intervalStrokes, "   ●       "},
		{"unknown", half, span{nan, nan, nan}, intervalStrokes, "     ┊     "},
		{"over the reference", half, span{0.2, 0.3, 0.8}, intervalStrokes, "  ├●────┤  "},
		{"limits keep the middle", half, span{0.2, 0.3, 0.8}, limitStrokes, "  [● ┊  ]  "},
		{"swing", half, span{0.2, nan, 0.8}, swingStrokes, "  ╞═════╡  "},
		{"ratios", odds, span{0.25, 1, 4}, intervalStrokes, "   ├─●─┤   "}, // each doubling is one cell
		{"beyond the scale", odds, span{0, 1, math.Inf(1)}, intervalStrokes, "‹────●────›"},
	}
	for _, test := range tests {
		if got := test.scale.strip(test.span, 11, test.with); got != test.want {
			t.Errorf("%s: %q, want %q", test.name, got, test.want)
		}
	}
}

func TestBlock(t *testing.T) {
	s := scale{low: 0, high: 10}
	for x, want := range map[float64]string{0: "", 10: "██████████", 5: "█████", 5.5: "█████▌", 0.125: "▏", 9.875: "█████████▉"} {
		if got := s.block(x, 10); got != want {
			t.Errorf("block(%v) = %q, want %q", x, got, want)
		}
	}
	if got := s.block(math.NaN(), 10); got != "" {
		t.Errorf("block of nothing is %q", got)
	}
}

func TestTicks(t *testing.T) {
	tests := []struct {
		scale scale
		want  string
	}{
		{scale{low: 0, high: 1, kind: KindRate}, "0% 20% 40% 60% 80% 100%"},
		{scale{low: -0.3, high: 0.3, kind: KindChange}, "-20 0 20"},
		{scale{low: 0, high: 300, kind: KindCount}, "0 100 200 300"},
		{scale{low: 0, high: 3, kind: KindNumber}, "0 1 2 3"},
		{scale{low: 0, high: 0.05, kind: KindNumber}, "0 0.01 0.02 0.03 0.04 0.05"},
		{scale{low: 0.25, high: 8, log: true, kind: KindNumber}, "0.25 0.5 1 2 4 8"},
	}
	n := newNumerals(language.Und)
	for _, test := range tests {
		var got []string
		for _, x := range test.scale.ticks() {
			got = append(got, n.tick(test.scale, x))
		}
		if strings.Join(got, " ") != test.want {
			t.Errorf("ticks %v, want %s", got, test.want)
		}
	}
}

// A scale holds all that it is made for, and has a few labels and not many.
func TestNiceScale(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		numbers := rapid.SliceOfN(rapid.Float64Range(-1e6, 1e6), 0, 6).Draw(t, "numbers")
		fromZero := rapid.Bool().Draw(t, "zero")
		s := niceScale(numbers, KindNumber, fromZero)
		if !(s.low < s.high) {
			t.Fatalf("from %v to %v", s.low, s.high)
		}
		slack := (s.high - s.low) * 1e-9
		for _, x := range numbers {
			if x < s.low-slack || x > s.high+slack {
				t.Fatalf("%v is outside %v to %v", x, s.low, s.high)
			}
		}
		if fromZero && (s.low > 0 || s.high < 0) {
			t.Fatalf("no zero in %v to %v", s.low, s.high)
		}
		if n := len(s.ticks()); n < 2 || n > 8 {
			t.Fatalf("%d ticks from %v to %v", n, s.low, s.high)
		}
	})
}

func TestCurveText(t *testing.T) {
	// Half are lost on day 10 of 20, so the stairs go down in the middle.
	p := Curve{Title: "Share alive", Desc: "Half are lost.", Axis: "days", Lines: []Line{
		{End: 20, Steps: []Step{{10, 0.5, 0.3, 0.7}}},
	}}
	got := strings.Split(asText(t, Doc{Name: "x", Body: []Block{p}}, TextOptions{Width: 27}), "\n")
	want := []string{
		"Share alive",
		"100% │──────────┐",
		"     │          │",
		"     │          │",
		"     │          │",
		"     │          │",
		" 50% │          └──────────",
		"     │",
		"     │",
		"     │",
		"     │",
		"  0% │",
		"     └─────────────────────",
		"      0                  20",
		"      days",
		"Half are lost.",
	}
	if start := slices.Index(got, "Share alive"); start < 0 || !slices.Equal(got[start:start+len(want)], want) {
		t.Errorf("drew\n%s", strings.Join(got, "\n"))
	}
}
