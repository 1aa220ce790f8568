package entry

import (
	"regexp"
	"slices"
	"strings"
	"testing"
)

// The form of a sentence shows every word that can stand in it, and nothing of
// the names by which the code knows its parts.
func TestFormsAreWhole(t *testing.T) {
	words := regexp.MustCompile(`[\pL-]+[0-9]*`)
	capitals := []string{"NAME", "NUMBER", "TEXT", "DATE", "MONTH", "UNIT", "CURRENCY"}
	for _, k := range All {
		form := k.Grammar.Form()
		text := strings.Join(slices.Concat([]string{form.Sentence}, form.Clauses, form.Shared), "\n")
		shown := words.FindAllString(text, -1)
		for _, w := range k.Grammar.Words() {
			if regexp.MustCompile(`^\pL`).MatchString(w) && !slices.Contains(shown, w) {
				t.Errorf("%s: %q does not show in\n%s", k.Verb, w, text)
			}
		}
		for _, w := range shown {
			if !slices.Contains(k.Grammar.Words(), w) && !slices.Contains(capitals, w) {
				t.Errorf("%s: what is %q in\n%s", k.Verb, w, text)
			}
		}
		if !strings.HasPrefix(form.Sentence, k.Verb+" ") {
			t.Errorf("%s: the sentence is %s", k.Verb, form.Sentence)
		}
	}
}
