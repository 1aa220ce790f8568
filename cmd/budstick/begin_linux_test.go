package main

import (
	"io"
	"os"
	"strings"
	"testing"
)

// answer runs begin with a person at a terminal who types lines, and returns
// the status and what the terminal shows.
func answer(t *testing.T, lines string, args ...string) (code int, shown string) {
	t.Helper()
	person, tty := openPair(t, 80)
	written := gather(person, tty)
	if _, err := person.WriteString(lines); err != nil {
		t.Fatal(err)
	}
	code = run(append([]string{"begin"}, args...), tty, io.Discard, tty, func(string) string { return "" })
	return code, written()
}

// endOfInput is what a person types to end the answers.
const endOfInput = "\x04"

func TestBeginAsks(t *testing.T) {
	tests := []struct {
		name    string
		answers string
		args    []string
		code    int
		want    string // the entries
		shown   string
	}{
		{
			"all answered", "Kestrel Hollow\nEUR\nOctober\nAmberlight\nEriobotrya japonica\nM7\nInes\n", nil, 0,
			`farm "Kestrel Hollow" currency EUR season from October
variety Amberlight species "Eriobotrya japonica"
tree M7 variety Amberlight
worker Ines
`, "What is the farm called? ",
		},
		{"only the farm", "\n Hollow \n\n\n\n\n", nil, 0, "farm Hollow\n", "A journal begins with the farm's name."},
		{
			"answers that can't be written are asked for again", "Hollow\neuro\nEUR\nOctember\nOct\nAmberlight\nloquat\n\nInes\n", nil, 0,
			"farm Hollow currency EUR season from Oct\nworker Ines\n", "loquat is no botanical name",
		},
		{"a flag is not asked for", "\n\n\n", []string{"--farm", "Hollow", "--worker", "Ru"}, 0, "farm Hollow\nworker Ru\n", "Which money"},
		{"the answers end", "Hollow\n" + endOfInput, nil, 2, "", "the answers end here, so nothing is written"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			t.Chdir(t.TempDir())
			code, shown := answer(t, test.answers, test.args...)
			if code != test.code || !strings.Contains(shown, test.shown) {
				t.Errorf("status %d, want %d, and %q in\n%s", code, test.code, test.shown, shown)
			}
			written, _ := os.ReadFile(firstFile)
			if got := entriesOf(string(written)); got != test.want {
				t.Errorf("it says\n%s\nwant\n%s", got, test.want)
			}
			if test.code == 0 {
				if said := said("lint", "--quiet", "--fail-on", "hint") + said("format", "--check"); said != "" {
					t.Errorf("something is wrong with it: %s", said)
				}
			}
		})
	}
}

// entriesOf leaves out the version, comments and blank lines.
func entriesOf(journal string) string {
	var b strings.Builder
	for line := range strings.Lines(journal) {
		if line != "\n" && line[0] != '#' && line != "budstick 1\n" {
			b.WriteString(line)
		}
	}
	return b.String()
}
