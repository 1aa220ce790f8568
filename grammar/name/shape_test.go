package name

import (
	"encoding/csv"
	"os"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
)

// The letters of Latin, Greek and Cyrillic below U+0530 whose prototype in the
// confusables of UTS #39 (Unicode Security Mechanisms, data of about Unicode
// 13) is one or more ASCII letters or digits: code point, letter, prototype.
func TestLookAlikesOfUnicode(t *testing.T) {
	file, err := os.Open("../../testdata/reference/uts39_lookalikes.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	checked := 0
	for _, row := range rows[1:] {
		letter, prototype := row[1], row[2]
		r, _ := utf8.DecodeRuneInString(letter)
		switch {
		case strings.ContainsAny(prototype, "2356789"):
			continue // names that differ in digits other than 0 and 1 don't look alike
		case r >= 0x180 && r < 0x2B0 && letter != "ɑ" && letter != "ɡ":
			continue // letters of phonetic spelling and of languages of Africa, on few keyboards
		case letter == "ν" || letter == "υ":
			continue // v and u when small, but N and Y as capitals, and those count here
		case letter == "σ":
			continue // o only when small
		}
		checked++
		if got, want := Skeleton(letter), Skeleton(prototype); got != want {
			t.Errorf("%s (U+%s): %q, but %s is %q", letter, row[0], got, prototype, want)
		}
	}
	if checked < 60 {
		t.Errorf("%d rows of %d checked", checked, len(rows))
	}
}

func TestSkeletonsOfPairs(t *testing.T) {
	for _, c := range []struct {
		a, b  string
		alike bool
	}{
		{"Amberlight", "AMBERLIGHT", true},
		{"Inés", "Ines", true},
		{"Søren", "Soren", true},
		{"Łucja", "Lucja", true},
		{"РЕДВИНГ", "PEДВИНГ", true}, // the first two are Cyrillic, then Latin
		{"Аmberlight", "Amberlight", true},
		{"Μ7", "M7", true}, // Greek capital Mu
		{"M10", "M1O", true},
		{"Ml", "M1", true},
		{"Kali", "KaIi", true},
		{"bay2", "bay 2", true},
		{"bay_2", "bay-2", true},
		{"bay\u00A02", "bay 2", true},
		{"bay\u20132", "bay-2", true}, // en dash
		{"R3‑T7", "R3-T7", true},      // non-breaking hyphen
		{"cold frame", "coldframe", true},
		{"O'Neil", "O’Neil", true},
		{"O'Neil", "ONeil", true},
		{"Amber\u200Blight", "Amberlight", true},
		{"Amber\u00ADlight", "Amberlight", true},
		{"Redwing × Firstfig", "Redwing x Firstfig", true},
		{"wall 2", "wall2", true},
		{"R1-l2", "R1-12", true},
		{"oil 1", "oil1", true}, // only letters that touch a digit are read as digits
		{"ｂａｙ２", "bay2", true},

		{"row 1-12", "row 11-2", false},
		{"row 1-12", "row 112", false},
		{"M7", "M8", false},
		{"M7", "M07", false},
		{"bay", "bag", false},
		{"ไม้", "ไม", false}, // a tone mark is no accent
		{"が", "か", false},
	} {
		if got := Skeleton(c.a) == Skeleton(c.b); got != c.alike {
			t.Errorf("%q is %q, and %q is %q", c.a, Skeleton(c.a), c.b, Skeleton(c.b))
		}
	}
}

func TestSkeletonProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		checkSkeleton(t, anyName().Draw(t, "name"))
	})
}

func checkSkeleton(t failer, s string) {
	skeleton := Skeleton(s)
	if again := Skeleton(skeleton); again != skeleton {
		t.Fatalf("%+q has skeleton %+q, and that %+q", s, skeleton, again)
	}
	if folded := Skeleton(Fold(s)); folded != skeleton {
		t.Fatalf("%+q has skeleton %+q, folded %+q", s, skeleton, folded)
	}
}
