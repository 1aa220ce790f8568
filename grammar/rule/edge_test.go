package rule

import (
	"fmt"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"github.com/budstick/budstick/grammar/finding"
)

// A want is a finding that a journal says it must yield, in a comment on the
// line where it stands: #! severity rule: pattern of its words.
type want struct {
	severity, rule string
	words          *regexp.Regexp
	line           int
	met            bool
}

var wantSyntax = regexp.MustCompile(`^(hint|warning|error) ([a-z-]+): (.+)$`)

func wants(t *testing.T, journal string) []*want {
	t.Helper()
	var list []*want
	line := 0
	for text := range strings.Lines(journal) {
		line++
		for _, comment := range strings.Split(strings.TrimSpace(text), "#! ")[1:] {
			m := wantSyntax.FindStringSubmatch(strings.TrimSpace(comment))
			if m == nil {
				t.Fatalf("line %d: %q is no expectation", line, comment)
			}
			if _, ok := Named(m[2]); !ok {
				t.Fatalf("line %d: there is no rule %s", line, m[2])
			}
			list = append(list, &want{severity: m[1], rule: m[2], words: regexp.MustCompile(m[3]), line: line})
		}
	}
	return list
}

func (w *want) meets(f finding.Finding) bool {
	return !w.met && w.line == f.File.Line(f.Span.Start) && w.severity == f.Severity.String() && w.rule == f.Rule && w.words.MatchString(f.Message)
}

// The journals of testdata/rule yield what they say and nothing else.
func TestEdges(t *testing.T) {
	files, err := filepath.Glob("../../testdata/rule/*.txtar")
	if err != nil || len(files) == 0 {
		t.Fatal("no journals", err)
	}
	for _, path := range files {
		archive, err := txtar.ParseFile(path)
		if err != nil {
			t.Fatal(err)
		}
		top := ""
		for _, file := range archive.Files {
			if file.Name == "top" { // stands above every journal of the file
				top = string(file.Data)
				continue
			}
			t.Run(fmt.Sprintf("%s/%s", strings.TrimSuffix(filepath.Base(path), ".txtar"), file.Name), func(t *testing.T) {
				journal := top + string(file.Data)
				expected := wants(t, journal)
			findings:
				for _, f := range lint(t, journal) {
					for _, w := range expected {
						if w.meets(f) {
							w.met = true
							continue findings
						}
					}
					t.Errorf("not expected:%s", show([]finding.Finding{f}))
				}
				for _, w := range expected {
					if !w.met {
						t.Errorf("line %d: missing: %s %s: %s", w.line, w.severity, w.rule, w.words)
					}
				}
			})
		}
	}
}
