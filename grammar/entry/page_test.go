package entry

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/grammar/syntax"
)

const page = "../../FORMAT.md"

// made are the parts of FORMAT.md that come from the code, by the word of the
// marks around them.
var made = map[string]func() string{
	"reserved": func() string { return strings.Join(syntax.ReservedWords, " ") + "\n" },
	"entries":  entriesPart,
	"grammar":  grammarPart,
}

// TestFormatPage holds that FORMAT.md says what the code does; -update writes
// its parts anew.
func TestFormatPage(t *testing.T) {
	data, err := os.ReadFile(page)
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	for word, make := range made {
		begin, end := "<!-- begin "+word+" -->\n", "<!-- end "+word+" -->"
		before, rest, ok1 := strings.Cut(text, begin)
		old, after, ok2 := strings.Cut(rest, end)
		if !ok1 || !ok2 {
			t.Fatalf("FORMAT.md has no marks for %s", word)
		}
		if diff := cmp.Diff(old, make()); diff != "" && !*update {
			t.Errorf("%s: run this test with -update: %s", word, diff)
		}
		text = before + begin + make() + end + after
	}
	if *update && text != string(data) {
		if err := os.WriteFile(page, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// entriesPart explains every kind of entry.
func entriesPart() string {
	var b strings.Builder
	for _, g := range Groups {
		fmt.Fprintf(&b, "\n### %s\n", g.Title)
		for _, k := range g.Kinds {
			fmt.Fprintf(&b, "\n#### %s\n\n%s.\n\n```sentence\n%s\n```\n\n%s\n", k.Verb, upper(k.Summary), strings.Join(k.Sentences(), "\n"), k.Text)
		}
	}
	return b.String() + "\n"
}

func upper(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// grammarPart writes every production once: the sentences, and below them the
// parts that they share.
func grammarPart() string {
	var sentences, parts []string
	seen := map[string]bool{}
	for _, k := range All {
		for i, p := range k.Grammar.Productions() {
			if seen[p.Name] {
				continue
			}
			seen[p.Name] = true
			right := strings.Join(p.Alternatives, " | ")
			if len(right) > 80 && len(p.Alternatives) > 1 {
				right = strings.Join(p.Alternatives, "\n              | ")
			}
			text := fmt.Sprintf("%-13s = %s .\n", p.Name, right)
			if i == 0 {
				sentences = append(sentences, text)
			} else {
				parts = append(parts, text)
			}
		}
	}
	slices.Sort(parts)
	return "\n```ebnf\n" + strings.Join(sentences, "") + "\n" + strings.Join(parts, "") + "```\n\n"
}

// TestJournalsOfThePages reads the journals in the pages of the project: each
// must read clean, unless it marks what is found.
func TestJournalsOfThePages(t *testing.T) {
	paths, err := filepath.Glob("../../*.md")
	if err != nil {
		t.Fatal(err)
	}
	fences := regexp.MustCompile("(?ms)^```journal\n(.*?)^```$")
	n := 0
	for _, path := range paths {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range fences.FindAllStringSubmatch(string(data), -1) {
			n++
			if strings.Contains(m[1], "#!") {
				continue
			}
			for _, f := range Read(source.New(path, []byte(m[1]))).Findings {
				t.Errorf("%s: %s: %s: %s", filepath.Base(path), f.File.Text(f.Span), f.Rule, f.Message)
			}
		}
	}
	if n < 3 {
		t.Errorf("only %d journals stand in the pages", n)
	}
}

// TestUnitsAreExplained holds that FORMAT.md names every spelling of a unit.
func TestUnitsAreExplained(t *testing.T) {
	data, err := os.ReadFile(page)
	if err != nil {
		t.Fatal(err)
	}
	for _, u := range syntax.UnitSpellings() {
		if !strings.Contains(string(data), "`"+u+"`") {
			t.Errorf("FORMAT.md does not name the unit %s", u)
		}
	}
}

// TestAllIsAll finds a kind that is written down but forgotten in Groups.
func TestAllIsAll(t *testing.T) {
	paths, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	declared := regexp.MustCompile(`(?m)^var (\w+Kind) = kindOf\(`)
	n := 0
	for _, path := range paths {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		n += len(declared.FindAll(data, -1))
	}
	if n != len(All) {
		t.Errorf("%d kinds are declared, and Groups lists %d", n, len(All))
	}
}
