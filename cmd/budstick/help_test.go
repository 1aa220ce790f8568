package main

import (
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rivo/uniseg"
	"github.com/spf13/pflag"
)

// The help of every command is held against a file, so that a change of it is
// seen; it fits the page it is written for.
func TestHelp(t *testing.T) {
	pages := map[string][]string{"budstick": {"help"}}
	for _, c := range commands() {
		pages[c.name] = []string{c.name, "--help"}
	}
	for name, args := range pages {
		got := said(args...)
		compare(t, filepath.Join(root, "testdata", "cli", "help", name+".txt"), got)
		for line := range strings.SplitSeq(got, "\n") {
			if w := uniseg.StringWidth(line); w > plainWidth && !strings.Contains(line, "budstick ") {
				t.Errorf("%s: a line is %d wide: %s", name, w, line)
			}
		}
	}
}

// Each command's help is whole, and has an example unless the command takes
// nothing.
func TestHelpIsWhole(t *testing.T) {
	for _, c := range commands() {
		takes := c.usage != ""
		flags, _ := newFlags(c)
		c.setup(flags)
		flags.VisitAll(func(f *pflag.Flag) { takes = takes || !isGlobal(f.Name) })
		if c.summary == "" || c.long == "" || takes == (c.example == "") || strings.HasSuffix(c.summary, ".") {
			t.Errorf("%s: the summary, the long text and the example must be there, the first without a full stop", c.name)
		}
	}
}

// exampleFolders says where the example of a command is run, if it is not in a
// copy of the farm.
var exampleFolders = map[string]string{"begin": "", "bring": "grafting-book"}

// Each example of help does its work as it stands there.
func TestExamplesOfHelpRun(t *testing.T) {
	for _, c := range commands() {
		if c.example == "" || c.name == "watch" { // which does not end
			continue
		}
		t.Run(c.name, func(t *testing.T) {
			from, other := exampleFolders[c.name]
			if !other {
				from = "kestrel-hollow"
			}
			folder := t.TempDir()
			if from != "" {
				if err := os.CopyFS(folder, os.DirFS(filepath.Join(root, "examples", from))); err != nil {
					t.Fatal(err)
				}
			}
			if c.name == guardCommand.name || c.name == hookCommand.name {
				committedFolder(t, folder)
			}
			t.Chdir(folder)
			var b strings.Builder
			if code := run(append([]string{c.name}, arguments(c.example)...), strings.NewReader(""), &b, &b, os.Getenv); status(code) == statusCannot {
				t.Errorf("budstick %s %s: %s", c.name, c.example, b.String())
			}
		})
	}
}

// committedFolder makes a git checkout of a folder, with all that is in it
// committed.
func committedFolder(t *testing.T, folder string) {
	t.Helper()
	if _, err := exec.LookPath("git"); err != nil {
		t.Skip(err)
	}
	t.Setenv("HOME", folder)
	t.Setenv("GIT_CONFIG_NOSYSTEM", "1")
	for _, args := range []string{"init -q", "config user.email ines@kestrel.example", "config user.name Ines", "add .", "commit -q -m journal"} {
		if _, err := git(folder, strings.Fields(args)...); err != nil {
			t.Fatalf("git %s: %v", args, err)
		}
	}
}

// A flag before the command is told from its value without knowing the command
// yet, so flags of one name must be alike in whether they take one.
func TestFlagsOfOneNameAreAlike(t *testing.T) {
	takes := map[string]bool{}
	for _, c := range commands() {
		flags, _ := newFlags(c)
		c.setup(flags)
		flags.VisitAll(func(f *pflag.Flag) {
			for _, name := range []string{"--" + f.Name, "-" + f.Shorthand} {
				value := f.NoOptDefVal == ""
				if before, seen := takes[name]; seen && before != value && name != "-" {
					t.Errorf("%s takes a value in some commands and not in others, %s among them", name, c.name)
				}
				takes[name] = value
			}
		})
	}
}

func TestCommandIsFoundAmongFlags(t *testing.T) {
	tests := []struct {
		args string
		want int
	}{
		{"lint", 0},
		{"--color never lint", 2},
		{"--color=never lint", 1},
		{"-q lint a.bud", 1},
		{"-qo out.txt take", 2},
		{"-oout.txt take", 1},
		{"--as json --quiet lint", 3},
		{"--nonsense lint", 1},
		{"-- lint", 1},
		{"- lint", 0},
		{"--version", -1},
		{"--color never", -1},
		{"--", -1},
		{"", -1},
	}
	for _, test := range tests {
		if got := commandIndex(commands(), strings.Fields(test.args)); got != test.want {
			t.Errorf("budstick %s: the command stands at %d, want %d", test.args, got, test.want)
		}
	}
}

func TestColumnsWrap(t *testing.T) {
	got := columns([][2]string{
		{"lint", "find what contradicts itself"},
		{"--a-very-long-flag", "told below it"},
	}, 30)
	want := "  lint        find what\n" +
		"              contradicts\n" +
		"              itself\n" +
		"  --a-very-long-flag\n" +
		"              told below it\n"
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func BenchmarkStart(b *testing.B) {
	for b.Loop() {
		run([]string{"help"}, strings.NewReader(""), io.Discard, io.Discard, func(string) string { return "" })
	}
}
