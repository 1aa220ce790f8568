package entry

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/source"
)

var update = flag.Bool("update", false, "write what the tests find into FORMAT.md and testdata")

// TestWrongSentences reads the journals of testdata/entry. Behind each line
// that is wrong stand, as comments, what is said about it
//
//	#! COLUMN RULE: MESSAGE
//
// and, where a mend is offered, the line or lines as it leaves them
//
//	#= LINE
//
// A finding that is missing, extra or elsewhere fails, and so does a mend that
// leaves its finding or brings more of them.
func TestWrongSentences(t *testing.T) {
	paths, err := filepath.Glob("../../testdata/entry/*.txtar")
	if err != nil || len(paths) == 0 {
		t.Fatalf("no journals of wrong sentences: %v", err)
	}
	for _, path := range paths {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		var out strings.Builder
		for _, section := range strings.SplitAfter(string(data), "\n-- ") {
			title, text, _ := strings.Cut(strings.TrimSuffix(section, "-- "), "\n")
			t.Run(filepath.Base(path)+"/"+strings.Trim(title, "- "), func(t *testing.T) {
				got := annotate(t, text)
				if diff := cmp.Diff(text, got); diff != "" && !*update {
					t.Error(diff)
				}
				fmt.Fprintf(&out, "-- %s --\n%s", strings.Trim(title, "- "), got)
			})
		}
		if *update {
			if err := os.WriteFile(path, []byte(out.String()), 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// annotate is a journal with its findings behind the lines.
func annotate(t *testing.T, text string) string {
	lines := slices.DeleteFunc(strings.Split(text, "\n"), func(l string) bool {
		return strings.HasPrefix(l, "#!") || strings.HasPrefix(l, "#=")
	})
	file := source.New("x.bud", []byte(strings.Join(lines, "\n")))
	findings := finding.Sort(Read(file).Findings)
	var out strings.Builder
	for i, line := range lines {
		if i > 0 {
			out.WriteByte('\n')
		}
		out.WriteString(line)
		for _, f := range findings {
			if at := file.Position(f.Span.Start); at.Line == i+1 {
				fmt.Fprintf(&out, "\n#! %d %s: %s", at.Column, f.Rule, f.Message)
				out.WriteString(mendedLines(t, file, findings, f))
			}
		}
	}
	return out.String()
}

// mendedLines is what a mend makes of its lines, as comments.
func mendedLines(t *testing.T, file *source.File, all []finding.Finding, f finding.Finding) string {
	if f.Mend == nil {
		return ""
	}
	after := source.New(file.Path, mend(file, *f.Mend))
	left := finding.Sort(Read(after).Findings)
	same := slices.ContainsFunc(left, func(g finding.Finding) bool { return g.Span.Start == f.Span.Start && g.Message == f.Message })
	if same || len(left) > len(all) {
		t.Errorf("%q is mended, and %d of %d findings are left", f.Message, len(left), len(all))
	}
	first, last := file.Line(f.Mend.Span.Start), file.Line(f.Mend.Span.End)+strings.Count(f.Mend.Text, "\n")
	var out strings.Builder
	for line := first; line <= last; line++ {
		out.WriteString("\n#= " + after.Text(after.LineSpan(line)))
	}
	return out.String()
}

func mend(file *source.File, m finding.Mend) []byte {
	return slices.Concat(file.Bytes[:m.Span.Start], []byte(m.Text), file.Bytes[m.Span.End:])
}
