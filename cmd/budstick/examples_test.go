package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/rule"
)

// mistakes is the folder of small journals with one mistake each, and beside
// each what the linter says of it.
var mistakes = filepath.Join(root, "examples", "mistakes")

// said is what a person sees who runs the program.
func said(args ...string) string {
	var b strings.Builder
	run(args, strings.NewReader(""), &b, &b, func(string) string { return "" })
	return b.String()
}

// What stands beside each mistake is what the linter says of it, and the rule
// that the journal is named after is in it.
func TestMistakes(t *testing.T) {
	t.Chdir(mistakes)
	journals, err := filepath.Glob("*" + suffix)
	if err != nil || len(journals) == 0 {
		t.Fatalf("no mistakes found: %v", err)
	}
	for _, journal := range journals {
		name := strings.TrimSuffix(journal, suffix)
		t.Run(name, func(t *testing.T) {
			got := said("lint", journal)
			if !strings.Contains(got, "["+name+"]\n") {
				t.Errorf("the rule %s finds nothing here", name)
			}
			compare(t, name+".txt", got)
		})
	}
}

// Each error has its mistake.
func TestEveryErrorHasItsMistake(t *testing.T) {
	for _, r := range rule.All {
		if r.Severity != finding.Error {
			continue
		}
		if _, err := os.Stat(filepath.Join(mistakes, r.Name+suffix)); err != nil {
			t.Errorf("examples/mistakes has no journal for the error %s", r.Name)
		}
	}
}

// The farm of the examples has no error and is laid out as it should be; what
// the linter doubts of it is meant to be doubtful.
func TestKestrelHollow(t *testing.T) {
	t.Chdir(filepath.Join(root, "examples", "kestrel-hollow"))
	got := said("lint")
	if strings.Contains(got, ": error: ") {
		t.Errorf("the farm contradicts itself:\n%s", got)
	}
	compare(t, "lint.txt", got)
	if unformatted := said("format", "--check"); unformatted != "" {
		t.Errorf("format --check: %s", unformatted)
	}
}

// compare holds what was said against a file, or with -update writes the file.
func compare(t *testing.T, file, got string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Errorf("%s is not what the linter says (-want +got), see go test -update:\n%s", file, diff)
	}
}
