package rule

import (
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
	"pgregory.net/rapid"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

func fires(list []finding.Finding, rule string) bool {
	return slices.ContainsFunc(list, func(f finding.Finding) bool { return f.Rule == rule })
}

// An allow on the thing that a finding is about silences it, where the rule can
// be silenced, and only there.
func TestAllowSilences(t *testing.T) {
	for _, r := range All {
		journal := r.Bad
		named := map[string]bool{}
		for _, f := range lint(t, r.Bad) {
			if len(f.About) == 0 {
				if r.Silenceable() {
					t.Errorf("%s: a finding is about nothing, so nothing can allow it", r.Name)
				}
				continue
			}
			if !named[f.About[0]] {
				named[f.About[0]] = true
				journal += fmt.Sprintf("allow %s on %s because \"of a test\"\n", r.Name, strconv.Quote(f.About[0]))
			}
		}
		found := lint(t, journal)
		switch {
		case len(named) == 0:
		case r.Silenceable() && len(found) > 0:
			t.Errorf("%s: allowed, and still:%s", r.Name, show(found))
		case !r.Silenceable() && !fires(found, r.Name):
			t.Errorf("%s can be allowed", r.Name)
		}
	}
}

// Each limit that a page names moves something: at one end or the other of its
// scale the bad example is silent or the good one is not. For a few that takes
// more than the examples have, and a journal of testdata/rule sets them.
func TestLimitsMove(t *testing.T) {
	elsewhere := ""
	for _, journal := range edges(t) {
		elsewhere += journal
	}
	for _, r := range All {
		for _, limit := range r.Limits {
			moves := strings.Contains(elsewhere, "limit "+limit+" ")
			for _, value := range []string{"0", "100000"} {
				line := strings.TrimSpace(fmt.Sprintf("limit %s %s %s", limit, value, unitFor(limit))) + "\n"
				moves = moves || !fires(lint(t, line+r.Bad), r.Name) || fires(lint(t, line+r.Good), r.Name)
			}
			if !moves {
				t.Errorf("%s: nothing changes with the limit %s", r.Name, limit)
			}
		}
	}
}

// unitFor is a unit that a limit can be written in.
func unitFor(limit string) fact.Unit { return nursery.KnownLimits()[limit] }

// edges are the journals of testdata/rule.
func edges(t *testing.T) []string {
	t.Helper()
	files, err := filepath.Glob("../../testdata/rule/*.txtar")
	if err != nil {
		t.Fatal(err)
	}
	var list []string
	for _, path := range files {
		archive, err := txtar.ParseFile(path)
		if err != nil {
			t.Fatal(err)
		}
		top := ""
		for _, file := range archive.Files {
			if file.Name == "top" {
				top = string(file.Data)
				continue
			}
			list = append(list, top+string(file.Data))
		}
	}
	return list
}

// Whatever lines are lost from a journal, and whatever contradicts itself then,
// all rules answer, and answer the same twice.
func TestTornJournals(t *testing.T) {
	journals := edges(t)
	for _, r := range All {
		journals = append(journals, r.Bad, r.Good)
	}
	rapid.Check(t, func(rt *rapid.T) {
		lines := slices.Collect(strings.Lines(rapid.SampledFrom(journals).Draw(rt, "journal")))
		lost := rapid.SliceOfN(rapid.IntRange(0, len(lines)-1), 0, 4).Draw(rt, "lost")
		twice := rapid.SliceOfN(rapid.IntRange(0, len(lines)-1), 0, 2).Draw(rt, "twice")
		for _, i := range twice {
			lines = append(lines, lines[i])
		}
		for _, i := range lost {
			lines[i] = "\n"
		}
		journal := strings.Join(lines, "")
		if once, again := show(lint(t, journal)), show(lint(t, journal)); once != again {
			rt.Fatalf("two answers:%s\nand%s", once, again)
		}
	})
}
