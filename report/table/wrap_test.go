package table

import (
	"slices"
	"strings"
	"testing"

	"github.com/rivo/uniseg"
	"pgregory.net/rapid"
)

// The widths are those of a terminal that follows Unicode's East Asian Width
// (UAX 11) by grapheme clusters (UAX 29): wide letters and emoji take two cells,
// marks on a letter none.
func TestWidth(t *testing.T) {
	tests := []struct {
		s    string
		want int
	}{
		{"fig", 3}, {"é", 1}, {"e\u0301", 1}, {"枇杷", 4}, {"ｱ", 1}, {"한글", 4},
		{"👩\u200d🌾", 2}, {"🇵🇹", 2}, {"–", 1}, {"●", 1}, {"", 0},
	}
	for _, test := range tests {
		if got := width(test.s); got != test.want {
			t.Errorf("width(%q) = %d, want %d", test.s, got, test.want)
		}
	}
}

func TestWrap(t *testing.T) {
	tests := []struct {
		s     string
		limit int
		want  []string
	}{
		{"", 10, []string{""}},
		{"whip and tongue", 20, []string{"whip and tongue"}},
		{"whip and tongue", 9, []string{"whip and", "tongue"}},
		{"whip and tongue", 8, []string{"whip and", "tongue"}},
		{"in the lean-to", 11, []string{"in the", "lean-to"}},
		{"in the lean-to", 6, []string{"in the", "lean-", "to"}},
		{"Kagoshima枇杷", 10, []string{"Kagoshima", "枇杷"}},
		{"枇杷枇杷", 5, []string{"枇杷", "枇杷"}},
		{"unbreakable", 4, []string{"unbr", "eaka", "ble"}},
		{"e\u0301e\u0301e\u0301", 2, []string{"e\u0301e\u0301", "e\u0301"}},
		{"with --kind layer", 8, []string{"with", "--kind", "layer"}},
		{"2026-03-14", 8, []string{"2026-03-", "14"}},
	}
	for _, test := range tests {
		if got := wrap(test.s, test.limit); !slices.Equal(got, test.want) {
			t.Errorf("wrap(%q, %d) = %q, want %q", test.s, test.limit, got, test.want)
		}
	}
}

func TestWrapLosesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := visible(hostileText().Draw(t, "text"))
		limit := rapid.IntRange(2, 30).Draw(t, "limit")
		lines := wrap(s, limit)
		for _, line := range lines {
			if width(line) > limit && uniseg.GraphemeClusterCount(line) > 1 {
				t.Fatalf("%q is %d wide", line, width(line))
			}
		}
		squeeze := func(s string) string { return strings.ReplaceAll(s, " ", "") }
		if got := squeeze(strings.Join(lines, "")); got != squeeze(s) {
			t.Fatalf("%q became %q", s, lines)
		}
	})
}
