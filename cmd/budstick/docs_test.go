package main

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/format"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/grammar/rule"
	"github.com/budstick/budstick/grammar/source"
)

// A block is a fenced block of a page.
type block struct {
	page string // within the project
	line int    // of its first line, from 1
	text string
}

func (b block) String() string { return fmt.Sprintf("%s:%d", b.page, b.line) }

// pages lists the project's pages.
func pages(t *testing.T) []string {
	t.Helper()
	var list []string
	err := filepath.WalkDir(root, func(path string, e fs.DirEntry, err error) error {
		hidden := strings.HasPrefix(e.Name(), ".") && len(e.Name()) > 2
		if err == nil && e.IsDir() && (hidden || e.Name() == "node_modules") {
			return fs.SkipDir
		}
		if filepath.Ext(path) == ".md" {
			list = append(list, path)
		}
		return err
	})
	if err != nil || len(list) == 0 {
		t.Fatalf("%d pages: %v", len(list), err)
	}
	return list
}

// blocks gives the blocks of a page that are fenced with a word.
func blocks(t *testing.T, page, word string) []block {
	t.Helper()
	text, err := os.ReadFile(page)
	if err != nil {
		t.Fatal(err)
	}
	var list []block
	inside := false
	for i, line := range strings.Split(string(text), "\n") {
		switch {
		case strings.HasPrefix(line, "```"):
			inside = !inside && line == "```"+word
			if inside {
				list = append(list, block{page: page, line: i + 2})
			}
		case inside:
			list[len(list)-1].text += line + "\n"
		}
	}
	return list
}

// expected is the mark of a line whose findings are meant to be there.
var expected = regexp.MustCompile(`#! (.+)$`)

// Every journal block is formatted, and has no error and no warning but those
// that its lines expect: behind #! stands a pattern for each, with ; between.
func TestJournalsInPages(t *testing.T) {
	n := 0
	for _, page := range pages(t) {
		for _, b := range blocks(t, page, "journal") {
			n++
			checkJournal(t, b)
		}
	}
	if n == 0 {
		t.Error("no page has a journal")
	}
}

func checkJournal(t *testing.T, b block) {
	t.Helper()
	file := source.New(b.page, []byte(b.text))
	found := rule.Check(nursery.Replay([]*entry.Page{entry.Read(file)}, 0))
	lines := strings.Split(b.text, "\n")
	for i, line := range lines {
		m := expected.FindStringSubmatch(line)
		if m == nil {
			continue
		}
		for pattern := range strings.SplitSeq(m[1], "; ") {
			at := slices.IndexFunc(found, func(f finding.Finding) bool {
				text := fmt.Sprintf("%s: %s [%s]", f.Severity, f.Message, f.Rule)
				return file.Line(f.Span.Start) == i+1 && regexp.MustCompile(pattern).MatchString(text)
			})
			if at < 0 {
				t.Errorf("%s:%d: nothing is found that matches %s", b.page, b.line+i, pattern)
				continue
			}
			found = slices.Delete(found, at, at+1)
		}
	}
	for _, f := range found {
		if f.Severity > finding.Hint {
			t.Errorf("%s:%d: %s: %s [%s]", b.page, b.line+file.Line(f.Span.Start)-1, f.Severity, f.Message, f.Rule)
		}
	}
	if got, _, ok := format.File(file); ok && string(got) != b.text {
		t.Errorf("%s is not formatted (-is +should be):\n%s", b, cmp.Diff(b.text, string(got)))
	}
}

// Every console block is what the program says, run in examples. A line that
// begins with $ is a command; what it says stands below it.
func TestConsolesInPages(t *testing.T) {
	for _, page := range pages(t) {
		full, err := filepath.Abs(page)
		if err != nil {
			t.Fatal(err)
		}
		for _, b := range blocks(t, page, "console") {
			t.Run(b.String(), func(t *testing.T) {
				t.Chdir(filepath.Join(root, "examples"))
				got := runConsole(t, b.text)
				switch {
				case got == b.text:
				case *update:
					rewrite(t, full, b.text, got)
				default:
					t.Errorf("the program says something else (-page +program), see go test -update:\n%s", cmp.Diff(b.text, got))
				}
			})
		}
	}
}

// runConsole runs the commands of a block and gives the block as it should be.
func runConsole(t *testing.T, text string) string {
	t.Helper()
	var b strings.Builder
	for line := range strings.SplitSeq(text, "\n") {
		command, is := strings.CutPrefix(line, "$ ")
		if !is {
			continue
		}
		args := arguments(command)
		if args[0] != "budstick" {
			t.Fatalf("a console runs only budstick, not %s", args[0])
		}
		fmt.Fprintf(&b, "%s\n%s", line, said(args[1:]...))
	}
	return b.String()
}

var argument = regexp.MustCompile(`"[^"]*"|'[^']*'|\S+`)

// arguments parts a command line at blanks that stand in no quotes.
func arguments(line string) []string {
	list := argument.FindAllString(line, -1)
	for i, a := range list {
		if a[0] == '"' || a[0] == '\'' {
			list[i] = a[1 : len(a)-1]
		}
	}
	return list
}

// rewrite puts a block in place of another in a page.
func rewrite(t *testing.T, page, before, now string) {
	t.Helper()
	text, err := os.ReadFile(page)
	if err != nil {
		t.Fatal(err)
	}
	fence := "```console\n"
	out := strings.Replace(string(text), fence+before, fence+now, 1)
	if err := os.WriteFile(page, []byte(out), 0o644); err != nil {
		t.Fatal(err)
	}
}
