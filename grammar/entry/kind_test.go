package entry

import (
	"testing"

	"github.com/budstick/budstick/grammar/source"
)

func TestSentencesReadClean(t *testing.T) {
	for _, k := range All {
		for _, s := range k.sentences() {
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
