package rule

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/grammar/source"
)

// lint reads a journal and says all there is to say about it.
func lint(t *testing.T, journal string) []finding.Finding {
	t.Helper()
	n := nursery.Replay([]*entry.Page{entry.Read(source.New("journal.bud", []byte(journal)))}, 0)
	if err := n.Audit(); err != nil {
		t.Error(err)
	}
	return Check(n)
}

func show(list []finding.Finding) string {
	var b strings.Builder
	for _, f := range list {
		at := f.File.Position(f.Span.Start)
		line := f.File.Text(f.File.LineSpan(at.Line))
		b.WriteString("\n\t" + f.Severity.String() + ": " + f.Message + " [" + f.Rule + "]\n\t\t" + line)
	}
	return b.String()
}

// A rule's bad example yields the rule's own finding and nothing else at all;
// the good one is silent.
func TestExamples(t *testing.T) {
	for _, r := range All {
		t.Run(r.Name, func(t *testing.T) {
			bad := lint(t, r.Bad)
			if !slices.ContainsFunc(bad, func(f finding.Finding) bool { return f.Rule == r.Name }) {
				t.Errorf("the bad example does not yield it:%s", show(bad))
			}
			for _, f := range bad {
				if f.Rule != r.Name {
					t.Errorf("the bad example yields more:%s", show([]finding.Finding{f}))
				} else if f.Severity != r.Severity {
					t.Errorf("found as %s, but its page says %s", f.Severity, r.Severity)
				}
			}
			if good := lint(t, r.Good); len(good) > 0 {
				t.Errorf("the good example is not silent:%s", show(good))
			}
		})
	}
}

// A mend removes its finding and adds none.
func TestMends(t *testing.T) {
	mends := 0
	for _, r := range All {
		before := lint(t, r.Bad)
		for _, f := range before {
			if f.Mend == nil {
				continue
			}
			mends++
			mended := bytes.Join([][]byte{f.File.Bytes[:f.Mend.Span.Start], []byte(f.Mend.Text), f.File.Bytes[f.Mend.Span.End:]}, nil)
			after := lint(t, string(mended))
			if finding.Worst(after) >= f.Severity && len(after) >= len(before) {
				t.Errorf("%s: the mend %q does not mend:%s", r.Name, f.Mend.Text, show(after))
			}
		}
	}
	if mends < 5 {
		t.Errorf("only %d mends were tried", mends)
	}
}

// Each page is whole, and says a sentence a grower can read.
func TestPagesAreWhole(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range All {
		switch {
		case seen[r.Name]:
			t.Errorf("%s stands twice", r.Name)
		case r.Name == "" || strings.ToLower(r.Name) != r.Name || strings.ContainsAny(r.Name, " _"):
			t.Errorf("%q is no name for a rule", r.Name)
		case r.Summary == "" || strings.HasSuffix(r.Summary, "."):
			t.Errorf("%s: a summary is a line without a full stop", r.Name)
		case !strings.HasSuffix(r.Why, "."):
			t.Errorf("%s: the reason is whole sentences", r.Name)
		case r.Severity < finding.Hint || r.Severity > finding.Error:
			t.Errorf("%s has no severity", r.Name)
		}
		seen[r.Name] = true
	}
}

// Every limit that a page names is one that can be changed, and every limit
// that the tool ships is named on a page, or is read elsewhere.
func TestLimitsExist(t *testing.T) {
	known := nursery.KnownLimits()
	used := map[string]bool{"saleable-age": true} // the reports read it too
	for _, r := range All {
		for _, limit := range r.Limits {
			used[limit] = true
			if _, ok := known[limit]; !ok {
				t.Errorf("%s: there is no limit %s", r.Name, limit)
			}
		}
	}
	for limit := range known {
		if !used[limit] {
			t.Errorf("no page names the limit %s", limit)
		}
	}
}

// What refuses a report is what a linter that knows all rules calls an error and
// nothing can allow, whatever else there is to say.
func TestContradictions(t *testing.T) {
	contradictions := 0
	for _, r := range All {
		for _, journal := range []string{r.Bad, r.Good, "allow too-mny on QA25\nallow too-many on QA25\n" + r.Bad} {
			n := nursery.Replay([]*entry.Page{entry.Read(source.New("journal.bud", []byte(journal)))}, 0)
			var want []finding.Finding
			for _, f := range Check(n) {
				of, known := Named(f.Rule)
				if f.Severity == finding.Error && !(known && of.Silenceable()) {
					want = append(want, f)
				}
			}
			contradictions += len(want)
			if got := Contradictions(n); !slices.EqualFunc(got, want, func(a, b finding.Finding) bool { return a.Span == b.Span && a.Message == b.Message }) {
				t.Errorf("%s: got%s\nwant%s", r.Name, show(got), show(want))
			}
		}
	}
	if contradictions < 100 {
		t.Errorf("only %d contradictions were seen", contradictions)
	}
}
