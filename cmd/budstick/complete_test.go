package main

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// offered is what a shell would be offered for the last of some words.
func offered(words ...string) []string {
	var list []string
	for line := range strings.Lines(said(append([]string{completeWord}, words...)...)) {
		word, _, _ := strings.Cut(line, "\t")
		list = append(list, word)
	}
	return list
}

func TestComplete(t *testing.T) {
	t.Chdir(filepath.Join(root, "examples", "kestrel-hollow"))
	tests := []struct {
		line string // words with blanks; the last is the one being written
		want string // what is offered, among others where it ends in …
	}{
		{"", "lint watch explain …"},
		{"expl", "explain"},
		{"nothing", ""},
		{"--col", "--color"},
		{"--color ", "auto always never"},
		{"--color never exp", "explain export"},
		{"lint --fail", "--fail-on"},
		{"lint --fail-on ", "error warning hint"},
		{"lint --fail-on=w", "--fail-on=warning"},
		{"lint --as s", "sarif"},
		{"lint far", ""}, // the names of files are for the shell
		{"explain old-w", "old-wood old-wood-cold old-wood-cool"},
		{"explain graf", "graft-minutes grafted-while-waiting grafts-a-day graft …"},
		{"explain old-wood ", ""},
		{"take --by meth", "method"},
		{"take --by method,wo", "method,wood method,worker method,wood-age"},
		{"take --by=method,meth", ""},
		{"take -h --by", "--by"},
		{"take --mother M1", "M10 M12"},
		{"take --variety Amb", "Amberlight"},
		{"take --variety=Amb", "--variety=Amberlight"},
		{"take --worker R", "Ru"},
		{"take --place shade-", "shade-1 shade-2"},
		{"take --season 2025", "2025"},
		{"season 202", "2024 2025 2026 2027"},
		{"lineage M1", "M10 M12"},
		{"trace --depth 3 M1", "M10 M12"},
		{"trace M7 M", ""},
		{"trace -- M1", "M10 M12"},
		{"completion ", "bash zsh fish"},
		{"hook ", "install remove run"},
		{"help see", ""},
		{"help sea", "seal season"},
		{"watch -- ta", "take"},
		{"watch -- take --by meth", "method"},
		{"watch -- trace M1", "M10 M12"},
		{"nonsense ", ""},
		{"lint --nonsense ", ""},
	}
	for _, test := range tests {
		got := offered(strings.Split(test.line, " ")...)
		want := strings.Fields(test.want)
		if open := len(want) > 0 && want[len(want)-1] == "…"; open {
			want = want[:len(want)-1]
			got = got[:min(len(got), len(want))]
		}
		slices.Sort(got)
		slices.Sort(want)
		if !slices.Equal(got, want) {
			t.Errorf("%q can go on with %v, want %v", test.line, got, want)
		}
	}
}

// The names are those of the journal that the line is about, and where it can't
// be read there are none, without a word.
func TestCompleteReadsTheJournalOfTheLine(t *testing.T) {
	farm, err := filepath.Abs(filepath.Join(root, "examples", "kestrel-hollow"))
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	if got := said(completeWord, "trace", ""); got != "" {
		t.Errorf("of no journal it says %q", got)
	}
	if got := offered("take", farm, "--mother", "M1"); !slices.Equal(got, []string{"M10", "M12"}) {
		t.Errorf("of the farm it offers %v", got)
	}
	if got := offered("take", filepath.Join(farm, "farm.bud"), "--variety", "Quince"); !slices.Equal(got, []string{"Quince BA"}) {
		t.Errorf("of a file it offers %v", got)
	}
}
