package guard

import (
	"strings"
	"testing"

	"github.com/budstick/budstick/grammar/source"
)

const then = "cause frost\n\n2026-02-20\nbuy 50 liners of QB as Q from \"a\"\nlose 2 of Q to frost\nlose 3 of Q to frost\n"

func file(text string) *source.File { return source.New("a.bud", []byte(text)) }

func TestCompare(t *testing.T) {
	change := func(old, new string) string { return strings.Replace(then, old, new, 1) }
	tests := []struct {
		name, now string
		line      int // of the finding; none where it stands
		says      string
		tidied    bool
	}{
		{"the same", then, 0, "", false},
		{"grown", then + "\n2026-02-21\nlose 1 of Q to frost\n", 0, "", false},
		{"other ends of lines", strings.ReplaceAll(then, "\n", "\r\n"), 0, "", false},
		{"tidied", change("lose 2 of", "LOSE  2 of"), 0, "", true},
		{"a comment more", change("cause frost", "cause frost # cold"), 0, "", true},
		{"changed", change("50", "60"), 4, "has been changed since it was committed; put it right with a strike and a new entry, and bring back: buy 50 liners of QB as Q from \"a\"", false},
		{"a day changed", change("-20", "-19"), 3, "bring back: 2026-02-20", false},
		{"the last one gone", change("lose 3 of Q to frost\n", ""), 6, "gone from the end of the file; if it was wrong, strike it below, and bring it back: lose 3 of Q to frost", false},
		{"two gone", change("buy 50 liners of QB as Q from \"a\"\nlose 2 of Q to frost\n", ""), 4, "stood above this one and is gone; if it was wrong, strike it below, and bring it back: buy 50", false},
		{"two put in", change("lose 2", "note \"x\"\nnote \"y\"\nlose 2"), 5, "put in above what is committed;", false},
		{"put in twice", change("lose 2 of Q to frost\n", "lose 2 of Q to frost\nlose 2 of Q to frost\n"), 6, "put in above what is committed;", false},
		{"two swapped", change("lose 2 of Q to frost\nlose 3 of Q to frost\n", "lose 3 of Q to frost\nlose 2 of Q to frost\n"), 5, "have changed places; bring them back in their order; here stood: lose 2 of Q to frost", false},
		{"empty", "", 1, "gone from the end of the file", false},
	}
	for _, test := range tests {
		now := file(test.now)
		v := Compare(file(then), now)
		if v.Tidied != test.tidied || (len(v.Findings) > 0) != (test.line > 0) {
			t.Errorf("%s: tidied %v, found %v", test.name, v.Tidied, v.Findings)
			continue
		}
		for _, f := range v.Findings {
			if line := now.Line(f.Span.Start); line != test.line || !strings.Contains(f.Message, test.says) {
				t.Errorf("%s: line %d: %s", test.name, line, f.Message)
			}
		}
	}
}

// Above a seal not a blank may change; below it the layout may.
func TestCompareAboveASeal(t *testing.T) {
	sealed := then + "seal sha256 " + strings.Repeat("0", 64) + "\nlose 4 of Q to frost\n"
	for now, want := range map[string]string{
		strings.Replace(sealed, "lose 2", "lose  2", 1): "line 5 stands above a seal and has been changed; not even a blank may change there; put a slip right below the seal with strike, and bring back: lose 2 of Q to frost",
		strings.Replace(sealed, "lose 4", "lose  4", 1): "",
		then: "line 7 stands above a seal",
	} {
		got := ""
		for _, f := range Compare(file(sealed), file(now)).Findings {
			got = f.Message
		}
		if !strings.HasPrefix(got, want) || want == "" && got != "" {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// What a merged branch holds may stand in another order, and under a later day
// with the day it was; each entry as often as it was written.
func TestLost(t *testing.T) {
	theirs := then + "\n2026-02-22\nlose 3 of Q to frost\nnote Q \"theirs\"\n"
	tests := []struct {
		now  string
		want []string
	}{
		{theirs, nil},
		{then + "\n2026-02-24\nlose 5 of Q to frost\nNOTE  Q \"theirs\" happened 2026-02-22\nlose 3 of Q to frost\n  happened 2026-02-22\n", nil},
		{then + "\n2026-02-24\nnote Q \"theirs\"\n", []string{"lose 3 of Q to frost"}},
		{then + "\n2026-02-24\nlose 3 of Q to frost\nnote Q \"theirs\" # but not \"mine\"\n", nil},
		{then + "\n2026-02-24\nlose 3 of Q to frost\nnote Q \"theirs\" note \"mine\"\n", []string{`note Q "theirs"`}},
	}
	for _, test := range tests {
		found := Lost(file(theirs), file(test.now))
		if len(found) != len(test.want) {
			t.Errorf("%q: %v, want %v", test.now, found, test.want)
			continue
		}
		for i, f := range found {
			if !strings.HasSuffix(f.Message, ": "+test.want[i]) {
				t.Errorf("%s, want %s", f.Message, test.want[i])
			}
		}
	}
}
