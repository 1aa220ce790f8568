package name

import (
	"testing"

	"github.com/agnivade/levenshtein"
	"pgregory.net/rapid"
)

func TestSuggest(t *testing.T) {
	verbs := []string{"sow", "graft", "layer", "check", "sell", "sever", "cut", "count"}
	names := []string{"Amberlight", "Emberlight", "Redwing", "M7", "M8", "R3-T07", "bay 2", "Inés"}
	for _, c := range []struct {
		word  string
		among []string
		want  string // "" for none
	}{
		{"gratf", verbs, "graft"},
		{"grapht", verbs, "graft"},
		{"GRAFT", verbs, "graft"},
		{"chekc", verbs, "check"},
		{"sel", verbs, "sell"},
		{"saw", verbs, "sow"},
		{"cuont", verbs, "count"},
		{"prune", verbs, ""},
		{"so", verbs, ""},
		{"", verbs, ""},
		{"Amberligth", names, "Amberlight"},
		{"Umberlight", names, "Amberlight"}, // as far from Emberlight, which comes later
		{"Redwnig", names, "Redwing"},
		{"M07", names, "M7"},
		{"M9", names, ""},
		{"R3-T7", names, "R3-T07"},
		{"R3-T8", names, ""},
		{"bay2", names, "bay 2"},
		{"bay3", names, ""},
		{"ines", names, "Inés"},
		{"Kestrel Hollow", names, ""},
		{"Redwing", nil, ""},
	} {
		got, ok := Suggest(c.word, c.among)
		if got != c.want || ok != (c.want != "") {
			t.Errorf("Suggest(%q) is %q, %v, not %q", c.word, got, ok, c.want)
		}
	}
}

func TestSuggestHangsOnNoOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.StringMatching(`[a-d]{1,8}`)
		among := rapid.SliceOfN(word, 1, 8).Draw(t, "among")
		asked := word.Draw(t, "word")
		got, ok := Suggest(asked, among)
		again, okAgain := Suggest(asked, rapid.Permutation(among).Draw(t, "permuted"))
		if got != again || ok != okAgain {
			t.Fatalf("%q, then %q", got, again)
		}
	})
}

// Beside an independent count of edits without swaps: a swap saves one at
// most, and each edit counts at least once.
func TestSlipsAgainstLevenshtein(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.StringMatching(`[abcé]{0,9}`)
		a, b := word.Draw(t, "a"), word.Draw(t, "b")
		edits := levenshtein.ComputeDistance(a, b)
		if got := slips([]rune(a), []rune(b)); got > edits || 2*got < edits {
			t.Fatalf("%d slips from %q to %q, %d edits", got, a, b, edits)
		}
	})
	// Damerau 1964 counts each of these four kinds as one error.
	for _, c := range [][2]string{{"graft", "grat"}, {"graft", "grafft"}, {"graft", "grift"}, {"graft", "garft"}} {
		if got := slips([]rune(c[0]), []rune(c[1])); got != 1 {
			t.Errorf("%d slips from %s to %s", got, c[0], c[1])
		}
	}
}
