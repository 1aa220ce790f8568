package name

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"
)

// The rule that these rest on is the project's own: names that differ in
// digits don't look alike, save leading zeros, O for 0 and l for 1.
func TestNear(t *testing.T) {
	for _, c := range []struct {
		a, b string
		near bool
	}{
		// the same name
		{"M7", "M7", false},
		{"Inés", "Ine\u0301s", false},
		// case, accents, letters and gaps
		{"Bay2", "bay2", true},
		{"Inés", "Ines", true},
		{"bay2", "bay 2", true},
		{"Ru", "RU", true},
		{"М7", "M7", true}, // Cyrillic Em
		{"Ru", "Rú", true},
		// numbers
		{"M7", "M8", false},
		{"M7", "M07", true},
		{"M7", "M007", true},
		{"M0", "M00", true},
		{"R3-T7", "R3-T07", true},
		{"R3-T7", "R03-T07", true},
		{"R3-T7", "R3-T17", false},
		{"R3-T7", "R3-T70", false},
		{"R1-12", "R11-2", false},
		{"R1-12", "R1-l2", true},
		{"M10", "M1O", true},
		{"M07", "MO7", true},
		{"MO7", "M7", false},
		{"M100", "M10", false},
		{"AM26", "AM27", false},
		{"2026-1", "2026-01", true},
		{"bay 2", "bay", false},
		{"7", "seven", false},
		// one slip in a word
		{"Nam Dok Mai", "Nam Doc Mai", true},
		{"Amberlight", "Amberligt", true},
		{"Amberlight", "Amberligght", true},
		{"Amberlight", "Amberlihgt", true},
		{"Amberlight", "Ambrelihgt", false},
		{"Anna", "Ann", true},
		{"Firstfig M7", "Firstfog M7", true},
		{"Firstfig M7", "Firstfog M8", false},
		{"Firstfig", "Firstfig2", false},
		{"Firstfi9", "Firstfig", false},
		{"Amberlight", "Emberlihgt", false},
		// too short, or parts that tell names of a row from each other
		{"Ru", "Ro", false},
		{"bay", "bar", false},
		{"bay 2", "bar 2", false},
		{"AM26", "AN26", false},
		{"A7", "B7", false},
		{"Amberlight A", "Amberlight B", false},
		{"Amberlight", "Amberlight B", false},
		{"Redwing NE", "Redwing NW", false},
		{"M8a", "M8b", false},
		{"M8/e", "M8/w", false},
		{"Amberlight II", "Amberlight III", false},
		{"Amberlight VIII", "Amberlight VII", false},
		{"mill", "mil", true},
		{"นก", "นา", false},
	} {
		if got := Near(c.a, c.b); got != c.near {
			t.Errorf("Near(%q, %q) is %v", c.a, c.b, got)
		}
		if got := Near(c.b, c.a); got != c.near {
			t.Errorf("Near(%q, %q) is %v", c.b, c.a, got)
		}
	}
}

// slipped makes one slip in s, whose rune at is a letter.
func slipped(t *rapid.T, s []rune, at int) string {
	other := rapid.RuneFrom([]rune("bcdefghkmnprstuz")).Draw(t, "other")
	switch rapid.IntRange(0, 3).Draw(t, "kind") {
	case 0:
		s[at] = other
	case 1:
		s = append(s[:at], s[at+1:]...)
	case 2:
		s = append(s[:at], append([]rune{other}, s[at:]...)...)
	default:
		if at+1 < len(s) {
			s[at], s[at+1] = s[at+1], s[at]
		}
	}
	return string(s)
}

func TestOneSlipInAWordIsNear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.StringMatching(`[a-z]{4,10}`).Draw(t, "word")
		if isRoman([]rune(word)) {
			t.Skip("a number")
		}
		prefix := rapid.StringMatching(`([A-Z][0-9]{1,2}-)?`).Draw(t, "prefix")
		at := rapid.IntRange(0, len(word)-1).Draw(t, "at")
		a, b := prefix+word, prefix+slipped(t, []rune(word), at)
		if a != b && !Near(a, b) {
			t.Fatalf("%q and %q aren't near", a, b)
		}
	})
}

// What differs in a digit is near only by leading zeros.
func TestOtherNumbersAreNotNear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		row := rapid.IntRange(1, 99).Draw(t, "row")
		other := rapid.IntRange(1, 99).Draw(t, "other")
		word := rapid.SampledFrom([]string{"M", "R3-T", "bay ", "Firstfig-", "wall"}).Draw(t, "word")
		width := rapid.SampledFrom([]string{"%d", "%02d", "%04d"})
		a := word + fmt.Sprintf(width.Draw(t, "width"), row)
		b := word + fmt.Sprintf(width.Draw(t, "other width"), other)
		if want := row == other && a != b; Near(a, b) != want {
			t.Fatalf("Near(%q, %q) is %v", a, b, !want)
		}
	})
}
