package name

import (
	"testing"

	"golang.org/x/text/unicode/norm"
	"pgregory.net/rapid"
)

// Strings that are canonically equivalent or differ in case fold to one.
func TestFoldOfEquivalents(t *testing.T) {
	for _, c := range []struct {
		source string
		alike  []string
		want   string
	}{
		{"UAX #15, figure 3, singletons: angstrom sign", []string{"\u212B", "\u00C5", "A\u030A"}, "å"},
		{"UAX #15, figure 3, singletons: ohm sign", []string{"\u2126", "\u03A9"}, "ω"},
		{"UAX #15, figure 4, composites", []string{"\u00F4", "o\u0302", "\u00D4"}, "ô"},
		{"UAX #15, figure 5, several marks", []string{"\u1E69", "s\u0323\u0307", "s\u0307\u0323", "\u1E62\u0307"}, "\u1E69"},
		{"UAX #15, figure 5, several marks", []string{"\u1E0B\u0323", "d\u0323\u0307", "\u1E0C\u0307"}, "\u1E0D\u0307"},
		{"UAX #15, figure 5, several marks", []string{"q\u0307\u0323", "Q\u0323\u0307"}, "q\u0323\u0307"},
		{"UAX #15, section 1.1: Hangul syllables", []string{"\uAC00", "\u1100\u1161"}, "\uAC00"},
		{"CaseFolding.txt: 00DF F, 1E9E F", []string{"Stra\u00DFe", "STRASSE", "STRA\u1E9EE"}, "strasse"},
		{"CaseFolding.txt: 03C2 C, final sigma", []string{"ΦΥΛΛΟΣ", "φυλλος", "φυλλοσ"}, "φυλλοσ"},
		{"CaseFolding.txt: 212A C, Kelvin sign", []string{"\u212A", "K"}, "k"},
		{"CaseFolding.txt: 017F C, long s", []string{"\u017Feed", "SEED"}, "seed"},
		{"CaseFolding.txt: 0130 F, I with a dot", []string{"\u0130", "I\u0307"}, "i\u0307"},
		{"CaseFolding.txt: 0149 F", []string{"\u0149"}, "\u02BCn"},
		{"CaseFolding.txt: FB03 F", []string{"\uFB03", "ffi"}, "ffi"},
		{"CaseFolding.txt: 0345 C and 1FB3 F, iota subscript", []string{"\u1FB3", "\u0391\u0345", "αι"}, "αι"},
		{"CaseFolding.txt: AB70 C and 13F8 C, Cherokee to capitals", []string{"\uAB70\u13F8", "\u13A0\u13F0"}, "\u13A0\u13F0"},
		{"no rule: other scripts and digits stay", []string{"น้ำดอกไม้ 4"}, "น้ำดอกไม้ 4"},
	} {
		for _, s := range c.alike {
			if got := Fold(s); got != c.want {
				t.Errorf("%s: Fold(%+q) is %+q, not %+q", c.source, s, got, c.want)
			}
		}
	}
}

// UAX #15, figure 6: compatibility equivalents are other strings.
func TestFoldKeepsCompatibilityForms(t *testing.T) {
	for _, pair := range [][2]string{{"2\u2075", "25"}, {"\uFF2D7", "M7"}} {
		if Fold(pair[0]) == Fold(pair[1]) {
			t.Errorf("%+q folds like %+q", pair[0], pair[1])
		}
	}
}

func TestFoldOfSmallLettersIsFree(t *testing.T) {
	name := "r3-t7 amberlight"
	if n := testing.AllocsPerRun(100, func() { Fold(name) }); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

// anyName draws text in which letters of several scripts, digits, gaps, marks
// and signs meet.
func anyName() *rapid.Generator[string] {
	return rapid.OneOf(
		rapid.StringOfN(rapid.RuneFrom([]rune("abilIoO01x7-_ ./'éÉßςΣоОІ\u0301\u0323\u0345ﬁ²×٣梅ไม้")), 0, 12, -1),
		rapid.String(),
	)
}

func TestFoldProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyName().Draw(t, "name")
		checkFold(t, s)
	})
}

type failer interface{ Fatalf(string, ...any) }

func checkFold(t failer, s string) {
	folded := Fold(s)
	if again := Fold(folded); again != folded {
		t.Fatalf("%+q folds to %+q and that to %+q", s, folded, again)
	}
	if !norm.NFC.IsNormalString(folded) {
		t.Fatalf("%+q folds to %+q, which isn't NFC", s, folded)
	}
	for _, form := range []norm.Form{norm.NFC, norm.NFD} {
		if other := Fold(form.String(s)); other != folded {
			t.Fatalf("%+q folds to %+q, and normalised to %+q", s, folded, other)
		}
	}
}

func FuzzFold(f *testing.F) {
	for _, s := range []string{"Amberlight", "Stra\u00DFe", "\u0391\u0345\u0301", "\uAB70", "\xff\x80A"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		checkFold(t, s)
		checkSkeleton(t, s)
	})
}
