package main

import (
	"bytes"
	"os/exec"
	"regexp"
	"strings"
	"testing"

	"github.com/spf13/pflag"
)

// tool runs a program on the manual page and returns all that it says.
func tool(t *testing.T, page, name string, args ...string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		t.Skip(name + " is not installed")
	}
	c := exec.Command(path, args...)
	c.Stdin = strings.NewReader(page)
	var out bytes.Buffer
	c.Stdout, c.Stderr = &out, &out
	_ = c.Run() // what it says is looked at, whatever its status
	return out.String()
}

// Nothing is wrong with the page for those who check such pages.
func TestManIsRoff(t *testing.T) {
	page := manPage(commands(), "2026-03-02")
	for _, check := range [][]string{{"mandoc", "-T", "lint", "-W", "style"}, {"groff", "-man", "-ww", "-z"}} {
		t.Run(check[0], func(t *testing.T) {
			if said := tool(t, page, check[0], check[1:]...); said != "" {
				t.Error(said)
			}
		})
	}
	for i, r := range page {
		if r > '~' || r < ' ' && r != '\n' {
			t.Fatalf("%q at byte %d is not plain ASCII", r, i)
		}
	}
}

// struck is a letter that is printed twice, or above a line, to look bold.
var struck = regexp.MustCompile(".\x08")

// What is read of the page is all that the help says.
func TestManSaysWhatHelpSays(t *testing.T) {
	page := manPage(commands(), "2026-03-02")
	for _, reader := range [][]string{{"mandoc", "-T", "utf8", "-O", "width=900"}, {"groff", "-man", "-T", "utf8", "-P", "-c", "-r", "LL=900n", "-r", "HY=0"}} {
		t.Run(reader[0], func(t *testing.T) {
			shown := struck.ReplaceAllString(tool(t, page, reader[0], reader[1:]...), "")
			shown = strings.Join(strings.Fields(shown), " ")
			want := []string{aboutProgram, "General Commands Manual", "2026"}
			for _, c := range commands() {
				want = append(want, "budstick "+c.name, "budstick "+c.name+" "+c.example, c.usage)
				for paragraph := range strings.SplitSeq(c.long, "\n\n") {
					want = append(want, paragraph)
				}
				flags, _ := newFlags(c)
				c.setup(flags)
				for _, row := range flagRows(flags, func(string) bool { return true }) {
					want = append(want, row[0], row[1])
				}
				flags.VisitAll(func(f *pflag.Flag) { want = append(want, "--"+f.Name) })
			}
			for _, text := range want {
				if text = strings.Join(strings.Fields(text), " "); !strings.Contains(shown, text) {
					t.Errorf("the page does not say: %s", text)
				}
			}
		})
	}
}
