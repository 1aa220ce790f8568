package nursery

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/finding"
	spelling "github.com/budstick/budstick/grammar/name"
)

// Names that are likely readings of one another must be looked for together.
func TestSureDigitsPartNoReadings(t *testing.T) {
	name := rapid.StringOfN(rapid.RuneFrom([]rune("aAmMoOlI0123456789-/. é２О")), 1, 7, -1)
	rapid.Check(t, func(t *rapid.T) {
		meant := name.Draw(t, "meant")
		word := meant
		for range rapid.IntRange(0, 3).Draw(t, "slips") {
			at := rapid.IntRange(0, len([]rune(word))).Draw(t, "at")
			runes := []rune(word)
			word = string(slices.Insert(runes, at, rapid.RuneFrom([]rune("aolIM0-é")).Draw(t, "put")))
		}
		if _, ok := spelling.Suggest(word, []string{meant}); ok && sureDigits(word) != sureDigits(meant) {
			t.Fatalf("%q may mean %q, but they are not looked for together", word, meant)
		}
	})
}

func TestGuesses(t *testing.T) {
	page := read("a.bud", `variety Amberlight species "Eriobotrya japonica"
tree M7 variety Amberlight
tree M12 variety Amberlight
limb M7/east of M7
2025-03-02
buy 5 liners of Amberlight as Harbour25
cut 4 scions from M7 as Bundle9
lose M-7 to frost
lose Harbor25 to frost
lose MI2 to frost
cut 2 scions from M7/esat as W2
sell 2 of Bundel9 to Bob
lose M8 to frost
sow 4 seed of Amberlihgt as S1
sow 4 seed of M7 as S2
`)
	want := []string{"M7", "Harbour25", "M12", "M7/east", "Bundle9", "", "Amberlight", ""}
	var got []string
	for _, f := range Replay([]*entry.Page{page}, 0).Findings {
		meant := ""
		if f.Mend != nil {
			meant = f.Mend.Text
		}
		if asked := strings.Contains(f.Message, "did you mean"); asked != (meant != "") {
			t.Errorf("%s: mend %q", f.Message, meant)
		}
		got = append(got, meant)
	}
	if !slices.Equal(got, want) {
		t.Errorf("meant %q, want %q", got, want)
	}
}

// In a journal with very many slips the later ones get no guess, so that the
// whole is read in a moment.
func TestGuessesEnd(t *testing.T) {
	var b strings.Builder
	b.WriteString("variety Quince species \"Cydonia oblonga\"\n2025-03-02\n")
	for i := range 3000 {
		fmt.Fprintf(&b, "buy 1 liners of Quince as %s\n", letters(i))
	}
	for i := range 3000 {
		fmt.Fprintf(&b, "lose %sX to frost\n", letters(i))
	}
	n := Replay([]*entry.Page{read("a.bud", b.String())}, 0)
	guessed := 0
	for _, f := range n.Findings {
		if f.Mend != nil {
			guessed++
		}
	}
	if len(n.Findings) != 3000 || finding.Worst(n.Findings) != finding.Error {
		t.Errorf("%d findings", len(n.Findings))
	}
	if guessed == 0 || guessed > 1+maxGuesses/3000 {
		t.Errorf("%d guesses", guessed)
	}
}

// letters writes a number in letters, so that no digit tells two names apart.
func letters(i int) string {
	s := "Plant"
	for ; i > 0; i /= 7 {
		s += string("aeiuzwy"[i%7])
	}
	return s
}
