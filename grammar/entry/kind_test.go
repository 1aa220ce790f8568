package entry

import (
	"strings"
	"testing"

	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/grammar/syntax"
)

func TestSentencesReadClean(t *testing.T) {
	for _, k := range All {
		for _, s := range k.Sentences() {
			page := Read(source.New("x.bud", []byte("2026-03-02\n"+s+"\n")))
			for _, f := range page.Findings {
				t.Errorf("%s\n\t%s: %s", s, f.Rule, f.Message)
			}
			if len(page.Entries) != 1 {
				t.Errorf("%s: %d entries", s, len(page.Entries))
			}
		}
	}
}

func TestOneTokenDecides(t *testing.T) {
	verbs := map[string]bool{}
	for _, k := range All {
		for _, c := range k.Grammar.Conflicts() {
			t.Errorf("%s: %s", k.Verb, c)
		}
		if verbs[k.Verb] {
			t.Errorf("two kinds begin with %s", k.Verb)
		}
		verbs[k.Verb] = true
	}
}

// TestNoWordIsAUnit holds that no word of the language is spelled like a unit:
// right after a number it would be read as one.
func TestNoWordIsAUnit(t *testing.T) {
	for _, k := range All {
		for _, w := range k.Grammar.Words() {
			if u, ok := syntax.UnitNamed(w); ok {
				t.Errorf("%s knows the word %q, which is the unit %s", k.Verb, w, u)
			}
			if syntax.IsCurrency(strings.ToUpper(w)) {
				t.Errorf("%s knows the word %q, which in capitals is a currency", k.Verb, w)
			}
		}
	}
}
