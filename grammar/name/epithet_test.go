package name

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// What each check is for is named by its Source; the names are invented. The
// limits of length and of bare numerals, the quotes and the capitals are from
// summaries of the ICNCP, 9th edition (2016); the words are from memory.
func TestEpithet(t *testing.T) {
	for _, c := range []struct {
		name string
		want map[string]string // rule to mend
	}{
		{"Amberlight", nil},
		{"'Amberlight'", nil},
		{"‘Amberlight’", nil},
		{"Nam Dok Mai", nil},
		{"Queen of the Hollow", nil},
		{"Fleur d'Ambre", nil},
		{"O'Neil", nil},
		{"BA29", nil},
		{"M 9", nil},
		{"Ru's No. 3", nil},
		{"น้ำดอกไม้", nil},
		{"梅", nil},

		{`"Amberlight"`, map[string]string{"double-quotes": "Amberlight"}},
		{"“Amberlight”", map[string]string{"double-quotes": "Amberlight"}},
		{"cv. Amberlight", map[string]string{"abbreviation": "Amberlight", "capitals": "Cv. Amberlight"}},
		{"Cv Amberlight", map[string]string{"abbreviation": "Amberlight"}},
		{"Cvetka", nil},
		{"Amberlight cv.", map[string]string{"abbreviation": "Amberlight", "capitals": "Amberlight Cv."}},
		{"Amberlight Var", map[string]string{"abbreviation": "Amberlight"}},
		{"Var. Amberlight", map[string]string{"abbreviation": "Amberlight"}},
		{"amberlight", map[string]string{"capitals": "Amberlight"}},
		{"Nam dok Mai", map[string]string{"capitals": "Nam Dok Mai"}},
		{"AMBERLIGHT", map[string]string{"capitals": "Amberlight"}},
		{"QUEEN OF THE HOLLOW", map[string]string{"capitals": "Queen of the Hollow"}},
		{"Émile", nil},
		{"émile", map[string]string{"capitals": "Émile"}},

		{strings.Repeat("Ab ", 15), nil}, // 30 without the blanks
		{strings.Repeat("Ab ", 15) + "C", map[string]string{"length": ""}},
		{"'" + strings.Repeat("A", 1) + strings.Repeat("b", 29) + "'", nil},
		{strings.Repeat("Ae\u0301", 15), nil}, // an accent is no character of its own

		{"A", map[string]string{"too-bare": ""}},
		{"X", map[string]string{"too-bare": ""}},
		{"'7'", map[string]string{"too-bare": ""}},
		{"2026", map[string]string{"too-bare": ""}},
		{"XIV", map[string]string{"too-bare": ""}},
		{"IIII", nil}, // not well formed
		{"", map[string]string{"too-bare": ""}},

		{"Hollow Hybrid", map[string]string{"word": ""}},
		{"Improved Redwing", map[string]string{"word": ""}},
		{"Redwing Sports", map[string]string{"word": ""}},
		{"Formosa", nil},
		{"Sweetest Fig", map[string]string{"praise": ""}},
		{"Forest", nil},

		{"Redwing × Firstfig", map[string]string{"hybrid-sign": ""}},
		{"Redwing X Firstfig", map[string]string{"hybrid-sign": ""}},
		{"Max", nil},
		{"Redwing + Firstfig", map[string]string{"chimaera-sign": ""}},
		{"Redwing®", map[string]string{"sign": ""}},
		{"Redwing #2", map[string]string{"sign": ""}},
		{"\u0410mberlight", map[string]string{"letters": ""}}, // its A is Cyrillic
		{"Amberlight Ομικρον", nil},
		{"Янтарь", nil},
	} {
		var got map[string]string
		for _, p := range Epithet(c.name) {
			if got == nil {
				got = map[string]string{}
			}
			got[p.Rule] = p.Mend
			if p.Text == "" || p.Source == "" {
				t.Errorf("%q: %+v", c.name, p)
			}
		}
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%q: %s", c.name, diff)
		}
	}
}

func TestBotanical(t *testing.T) {
	for _, c := range []struct {
		name string
		want map[string]string
	}{
		{"Eriobotrya japonica", nil},
		{"Citrus ×limon", nil},
		{"Citrus × limon", nil},
		{"Citrus x limon", nil},
		{"×Citrofortunella", nil},
		{"Rosa xanthina", nil},
		{"Xanthoceras sorbifolium", nil},
		{"Ximenia americana", nil},
		{"Annona xatemoya", map[string]string{"hybrid-sign": "Annona ×atemoya"}},
		{"xCitrofortunella", map[string]string{"hybrid-sign": "×Citrofortunella"}},
		{"Citrus X limon", map[string]string{"hybrid-sign": "Citrus × limon"}},
		{"Citrus * limon", map[string]string{"hybrid-sign": "Citrus × limon"}},
		{"+Crataegomespilus", nil},
		{"+ Crataegomespilus", nil},
		{"Crataegus monogyna + Mespilus germanica", nil},
		{"Prunus domestica subsp. insititia", nil},
		{"Diospyros kaki var. sylvestris", nil},
		{"Prunus sp.", nil},
		{"Prunus armeniaca × Prunus salicina", nil},
		{"× Citrofortunella floridana", nil},
		{"Prunus Armeniaca Group", nil},
		{"citrus limon", map[string]string{"capitals": "Citrus limon"}},
		{"Citrus Limon", map[string]string{"capitals": "Citrus limon"}},
		{"Citrus ×Limon", map[string]string{"capitals": "Citrus ×limon"}},
		{"CITRUS LIMON", map[string]string{"capitals": "Citrus limon"}},
		{"C. limon", map[string]string{"genus": ""}},
		{"Citrus limon 'Gate Lemon'", map[string]string{"cultivar": "Citrus limon"}},
		{"Citrus limon ‘Gate Lemon’", map[string]string{"cultivar": "Citrus limon"}},
		{"Citrus limon (L.) Osbeck", map[string]string{"author": "Citrus limon"}},
		{"Ficus carica L.", map[string]string{"author": "Ficus carica"}},
		{"Prunus domestica L. subsp. insititia (L.) Bonnier & Layens", map[string]string{"author": "Prunus domestica subsp. insititia"}},
		{"Prunus domestica ssp insititia", map[string]string{"rank": "Prunus domestica subsp. insititia"}},
		{"P. domestica ssp. insititia", map[string]string{"genus": "", "rank": "P. domestica subsp. insititia"}},
		{"Prunus spp.", map[string]string{"rank": "Prunus sp."}},
		{"\u0420runus armeniaca", map[string]string{"letters": ""}}, // its P is Cyrillic
		{"Crataegus+Mespilus", map[string]string{"chimaera-sign": "Crataegus + Mespilus"}},
	} {
		var got map[string]string
		for _, p := range Botanical(c.name) {
			if got == nil {
				got = map[string]string{}
			}
			got[p.Rule] = p.Mend
		}
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%q: %s", c.name, diff)
		}
	}
}

// A mend removes what it mends.
func TestMendsOfNames(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.OneOf(
			anyName(),
			rapid.StringMatching(`(cv\. ?)?["'“x+]?[a-zA-Z]{1,8}( ?[x+×X] ?| (of|d'|x))?[A-Za-zß]{0,5}["'”]?`),
		).Draw(t, "name")
		checkMends(t, name)
	})
}

func checkMends(t failer, name string) {
	for _, check := range []func(string) []Problem{Epithet, Botanical} {
		for _, p := range check(name) {
			if p.Mend == "" {
				continue
			}
			for _, left := range check(p.Mend) {
				if left.Rule == p.Rule {
					t.Fatalf("%q: %s is mended as %q, and that as %q", name, p.Rule, p.Mend, left.Mend)
				}
			}
		}
	}
}

func FuzzNames(f *testing.F) {
	f.Add("Nam Dok Mai", "Nam Doc Mai")
	f.Add("R3-T7", "R3-T07")
	f.Add("X X ", "xAb xb xylo")
	f.Add("cv. x\xff", "“QUEEN” + 1")
	f.Fuzz(func(t *testing.T, a, b string) {
		checkMends(t, a)
		near := Near(a, b)
		if near != Near(b, a) {
			t.Fatalf("%q and %q: near one way only", a, b)
		}
		found := len(pairsOf([]string{a, b})) == 1
		if near != found {
			t.Fatalf("%q and %q: near is %v, found is %v", a, b, near, found)
		}
		if word, ok := Suggest(a, []string{b}); ok && word != b {
			t.Fatalf("%q of nowhere", word)
		}
	})
}
