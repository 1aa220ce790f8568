package main

import (
	"bufio"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// A watching is a run of watch as a process of its own.
type watching struct {
	t     *testing.T
	run   *exec.Cmd
	lines chan string
}

func startWatching(t *testing.T, folder string, args ...string) *watching {
	t.Helper()
	w := &watching{t, exec.Command("budstick", append([]string{"watch"}, args...)...), make(chan string, 1000)}
	w.run.Dir = folder
	r, out := io.Pipe()
	w.run.Stdout, w.run.Stderr = out, out
	if err := w.run.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { w.run.Process.Kill(); out.Close() })
	go func() {
		for lines := bufio.NewScanner(r); lines.Scan(); {
			w.lines <- lines.Text()
		}
		close(w.lines)
	}()
	return w
}

// until waits for a line with some words in it, one after the other.
func (w *watching) until(words ...string) {
	w.t.Helper()
	var seen []string
	late := time.After(30 * time.Second)
	for {
		select {
		case line, ok := <-w.lines:
			seen = append(seen, line)
			if !ok {
				w.t.Fatalf("it ended before %q:\n%s", words, strings.Join(seen, "\n"))
			}
			if inOrder(line, words) {
				return
			}
		case <-late:
			w.t.Fatalf("nothing says %q in\n%s", words, strings.Join(seen, "\n"))
		}
	}
}

func inOrder(line string, words []string) bool {
	for _, word := range words {
		var ok bool
		if _, line, ok = strings.Cut(line, word); !ok {
			return false
		}
	}
	return true
}

// silent fails if the journal is looked over again within a while.
func (w *watching) silent() {
	w.t.Helper()
	for late := time.After(time.Second); ; {
		select {
		case line := <-w.lines:
			if strings.Contains(line, "entries in") {
				w.t.Fatalf("it says %q for no reason", line)
			}
		case <-late:
			return
		}
	}
}

// ends interrupts the run, which must end well.
func (w *watching) ends(with os.Signal) {
	w.t.Helper()
	if err := w.run.Process.Signal(with); err != nil {
		w.t.Fatal(err)
	}
	if err := w.run.Wait(); err != nil {
		w.t.Errorf("after %v it ends with %v, and should with 0", with, err)
	}
}

func TestWatch(t *testing.T) {
	folder := farmFolder(t)
	write := func(name, text string) {
		t.Helper()
		if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	w := startWatching(t, folder, "--", "stock")
	w.until("4 entries in 2 files")
	w.until("QB26", "50") // the report

	write("season.bud", season+"lose 60 of QB26 to frost\n")
	w.until("too-many")
	w.until("1 error")

	// as most editors save: another file takes the name
	write(".season.bud.swp", "something of the editor's own")
	write("4913", "")
	write("season.bud.new", season+"lose 3 of QB26 to frost\n")
	if err := os.Rename(filepath.Join(folder, "season.bud.new"), filepath.Join(folder, "season.bud")); err != nil {
		t.Fatal(err)
	}
	w.until("5 entries in 2 files")
	w.until("QB26", "47")

	// or the old one is moved away first
	if err := os.Rename(filepath.Join(folder, "season.bud"), filepath.Join(folder, "season.bud~")); err != nil {
		t.Fatal(err)
	}
	write("season.bud", season)
	w.until("4 entries in 2 files")
	w.until("QB26", "50")

	// a journal in a new folder, and one that goes
	if err := os.MkdirAll(filepath.Join(folder, "more", "below"), 0o755); err != nil {
		t.Fatal(err)
	}
	write("more/below/a.bud", "cause rot\n")
	w.until("5 entries in 3 files")
	w.until("QB26", "50")
	if err := os.Remove(filepath.Join(folder, "more", "below", "a.bud")); err != nil {
		t.Fatal(err)
	}
	w.until("4 entries in 2 files")
	w.until("QB26", "50")

	// what is no journal is nobody's business
	write("book.csv", "Date\n")
	write(".hidden.bud", "cause rot\n")
	w.silent()
	w.ends(os.Interrupt)
}

func TestWatchOneFile(t *testing.T) {
	folder := farmFolder(t)
	w := startWatching(t, filepath.Dir(folder), filepath.Join(folder, "standing.bud"))
	w.until("3 entries in 1 file")
	if err := os.WriteFile(filepath.Join(folder, "standing.bud"), []byte(standing+"cause rot\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	w.until("4 entries in 1 file")
	w.ends(syscall.SIGTERM)
}

func TestWatchRefuses(t *testing.T) {
	t.Chdir(farmFolder(t))
	tests := []struct{ args, want string }{
		{"-", "standard input can't be watched"},
		{"gone.bud", "there is no file gone.bud"},
		{"-- tak", "tak is no report; did you mean take?"},
		{"-- format -w", "format is no report"},
	}
	for _, test := range tests {
		if got := said(append([]string{"watch"}, strings.Fields(test.args)...)...); !strings.Contains(got, test.want) {
			t.Errorf("watch %s: %s, want %s", test.args, got, test.want)
		}
	}
}
