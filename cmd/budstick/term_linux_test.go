package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"golang.org/x/sys/unix"
	"golang.org/x/text/language"
)

// openPair opens a pseudo terminal of a width: the end that a person sits at, and
// the one that a program sees.
func openPair(t *testing.T, width uint16) (person, tty *os.File) {
	t.Helper()
	person, err := os.OpenFile("/dev/ptmx", os.O_RDWR, 0)
	if err != nil {
		t.Skip(err)
	}
	t.Cleanup(func() { person.Close() })
	fd := int(person.Fd())
	if err := unix.IoctlSetPointerInt(fd, unix.TIOCSPTLCK, 0); err != nil {
		t.Skip(err)
	}
	n, err := unix.IoctlGetInt(fd, unix.TIOCGPTN)
	if err != nil {
		t.Skip(err)
	}
	if err := unix.IoctlSetWinsize(fd, unix.TIOCSWINSZ, &unix.Winsize{Row: 24, Col: width}); err != nil {
		t.Skip(err)
	}
	tty, err = os.OpenFile(fmt.Sprintf("/dev/pts/%d", n), os.O_RDWR|unix.O_NOCTTY, 0)
	if err != nil {
		t.Skip(err)
	}
	return person, tty
}

// openTerminal opens a pseudo terminal of a width, and returns the end that a
// program writes to and a function that ends it and returns what was written.
func openTerminal(t *testing.T, width uint16) (tty *os.File, written func() string) {
	t.Helper()
	person, tty := openPair(t, width)
	return tty, gather(person, tty)
}

// gather reads what is written to a terminal. The function that it returns ends
// the terminal and gives all of it.
func gather(person, tty *os.File) (written func() string) {
	done := make(chan string)
	go func() {
		b, _ := io.ReadAll(person) // ends with an error when the other side closes
		done <- string(b)
	}()
	return func() string {
		tty.Close()
		return strings.ReplaceAll(<-done, "\r\n", "\n")
	}
}

// runOn runs the program with its standard output, or its standard error, on a
// terminal 60 wide, and returns what was written there.
func runOn(t *testing.T, errors bool, env map[string]string, args ...string) string {
	t.Helper()
	tty, written := openTerminal(t, 60)
	var stdout, stderr io.Writer = tty, io.Discard
	if errors {
		stdout, stderr = stderr, stdout
	}
	run(args, strings.NewReader(""), stdout, stderr, func(name string) string { return env[name] })
	return written()
}

func TestTerminals(t *testing.T) {
	t.Chdir(t.TempDir())
	wrong := "party Bob as customer note \"" + strings.Repeat("long ", 20) + "\" nonsense\n"
	if err := os.WriteFile("wrong.bud", []byte(wrong), 0o644); err != nil {
		t.Fatal(err)
	}
	const escape = "\x1b["
	tests := []struct {
		name   string
		errors bool
		env    map[string]string
		args   []string
		colour bool
	}{
		{"findings", false, nil, []string{"lint"}, true},
		{"a dumb terminal", false, map[string]string{"TERM": "dumb"}, []string{"lint"}, false},
		{"no colour in the environment", false, map[string]string{"NO_COLOR": "1"}, []string{"lint"}, false},
		{"an empty NO_COLOR says nothing", false, map[string]string{"NO_COLOR": ""}, []string{"lint"}, true},
		{"a flag against it", false, nil, []string{"lint", "--color", "never"}, false},
		{"a flag for it", false, map[string]string{"NO_COLOR": "1"}, []string{"lint", "--color", "always"}, true},
		{"errors where a report was asked for", true, nil, []string{"stock"}, true},
		{"messages", true, nil, []string{"lint"}, false},
	}
	for _, test := range tests {
		got := runOn(t, test.errors, test.env, test.args...)
		if strings.Contains(got, escape) != test.colour || got == "" {
			t.Errorf("%s: colour %v expected in %q", test.name, test.colour, got)
		}
	}
	// Colour is decided for each stream by itself: here only the messages would
	// be seen, so what goes elsewhere has none.
	tty, written := openTerminal(t, 60)
	var data strings.Builder
	run([]string{"lint"}, strings.NewReader(""), &data, tty, func(string) string { return "" })
	written()
	if strings.Contains(data.String(), escape) {
		t.Errorf("what goes to no terminal has colour: %q", data.String())
	}
}

func TestWidthIsTheTerminals(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.WriteFile("wrong.bud", []byte("nonsense "+strings.Repeat("and more ", 20)+"\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	quoted := func(text string) int {
		_, after, _ := strings.Cut(text, "\n")
		line, _, _ := strings.Cut(after, "\n")
		return len([]rune(line))
	}
	env := map[string]string{"NO_COLOR": "1"}
	if got := quoted(runOn(t, false, env, "lint")); got > 60 || got < 55 {
		t.Errorf("a line on a terminal 60 wide is %d wide", got)
	}
	if got := quoted(runOn(t, false, env, "lint", "--width", "100")); got > 100 || got < 95 {
		t.Errorf("a line that may be 100 wide is %d wide", got)
	}
	if got := quoted(said("lint")); got > 80 || got < 75 {
		t.Errorf("a line on no terminal is %d wide", got)
	}
}

// What is longer than the screen, of 24 rows, goes through the pager; the rest,
// and all that goes elsewhere, does not.
func TestPager(t *testing.T) {
	t.Chdir(t.TempDir())
	paged := map[string]string{"PAGER": "sed 's/^/paged: /'"}
	with := func(name, value string) map[string]string {
		return map[string]string{"PAGER": paged["PAGER"], name: value}
	}
	tests := []struct {
		name string
		env  map[string]string
		args []string
		want bool
	}{
		{"long text", paged, []string{"lint", "--help"}, true},
		{"short text", paged, []string{"--version"}, false},
		{"a flag against it", paged, []string{"lint", "--help", "--no-pager"}, false},
		{"a dumb terminal", with("TERM", "dumb"), []string{"lint", "--help"}, false},
		{"a pager that is not there", map[string]string{"PAGER": "no-such-pager"}, []string{"lint", "--help"}, false},
	}
	for _, test := range tests {
		got := runOn(t, false, test.env, test.args...)
		if strings.Contains(got, "paged: ") != test.want || !strings.Contains(got, "budstick") {
			t.Errorf("%s: paged must be %v:\n%s", test.name, test.want, got)
		}
	}
	var b strings.Builder
	run([]string{"lint", "--help"}, strings.NewReader(""), &b, &b, func(name string) string { return paged[name] })
	if strings.Contains(b.String(), "paged: ") {
		t.Error("what goes to no terminal is paged")
	}
}

// What takes longer than a second is told on a terminal, and is gone when it is
// done.
func TestProgress(t *testing.T) {
	do := func(env map[string]string, long time.Duration) string {
		tty, written := openTerminal(t, 60)
		term := newTerminal(strings.NewReader(""), io.Discard, tty, func(name string) string { return env[name] })
		done := term.doing("counting leaves")
		time.Sleep(long)
		done()
		return written()
	}
	if got, want := do(nil, 1200*time.Millisecond), "\rcounting leaves … 1 s\x1b[K\r\x1b[K"; got != want {
		t.Errorf("it shows %q, want %q", got, want)
	}
	if got := do(nil, 10*time.Millisecond); got != "" {
		t.Errorf("of what is done at once it shows %q", got)
	}
	if got := do(map[string]string{"TERM": "dumb"}, 1200*time.Millisecond); got != "" {
		t.Errorf("a dumb terminal shows %q", got)
	}
	var b strings.Builder
	done := newTerminal(strings.NewReader(""), &b, &b, func(string) string { return "" }).doing("counting leaves")
	time.Sleep(1200 * time.Millisecond)
	if done(); b.String() != "" {
		t.Errorf("what is no terminal gets %q", b.String())
	}
}

// Numbers are written as the environment wants them on a terminal only: what
// goes into a file is the same everywhere.
func TestNumbersAreTheReaders(t *testing.T) {
	t.Chdir(t.TempDir())
	journal := `variety "Quince BA" species "Cydonia oblonga" use rootstock
2025-11-03
buy 12345 liners of "Quince BA" as QB25 from "Liner nursery"
`
	if err := os.WriteFile(filepath.Join(".", "a.bud"), []byte(journal), 0o644); err != nil {
		t.Fatal(err)
	}
	env := map[string]string{"LANG": "de_DE.UTF-8", "NO_COLOR": "1"}
	if got := runOn(t, false, env, "stock"); !strings.Contains(got, "12.345") {
		t.Errorf("no 12.345 in\n%s", got)
	}
	var plain strings.Builder
	run([]string{"stock"}, strings.NewReader(""), &plain, io.Discard, func(name string) string { return env[name] })
	if !strings.Contains(plain.String(), "12,345") {
		t.Errorf("no 12,345 in\n%s", plain.String())
	}
}

func TestTongue(t *testing.T) {
	tests := []struct {
		env  map[string]string
		want language.Tag
	}{
		{map[string]string{"LC_ALL": "fr_FR.UTF-8", "LC_NUMERIC": "de_DE", "LANG": "en_US"}, language.MustParse("fr-FR")},
		{map[string]string{"LC_NUMERIC": "de_DE@euro", "LANG": "en_US"}, language.MustParse("de-DE")},
		{map[string]string{"LANG": "en_US.UTF-8"}, language.MustParse("en-US")},
		{map[string]string{"LC_ALL": "C", "LANG": "de_DE"}, language.Und},
		{map[string]string{"LANG": "POSIX"}, language.Und},
		{map[string]string{"LANG": "C.UTF-8"}, language.Und},
		{nil, language.Und},
	}
	for _, test := range tests {
		if got := tongueOf(func(name string) string { return test.env[name] }); got != test.want {
			t.Errorf("%v: %v, want %v", test.env, got, test.want)
		}
	}
}
