package nursery

import (
	"testing"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/finding"
)

// An error about a lot that a struck entry filled shows the strike as well.
func TestStrikeIsShownBesideWhatItBreaks(t *testing.T) {
	const text = `variety Amberlight species "Eriobotrya japonica"
2026-03-02
buy 5 trees of Amberlight as A1
buy 5 trees of Amberlight as A2
strike line 3 buy 5 because "wrong year"
sell 2 of A1 to Bob
sell 9 of A2 to Bob
`
	n := Replay([]*entry.Page{read("a.bud", text)}, 0)
	if len(n.Findings) != 2 {
		t.Fatalf("%d findings", len(n.Findings))
	}
	for i, want := range []bool{true, false} {
		f := n.Findings[i]
		shown := false
		for _, r := range f.Related {
			shown = shown || r.File.Line(r.Span.Start) == 5
		}
		if f.Severity != finding.Error || shown != want {
			t.Errorf("%s: strike shown: %v, want %v", f.Message, shown, want)
		}
	}
	if len(n.Struck) != 1 {
		t.Errorf("%d entries struck", len(n.Struck))
	}
}
