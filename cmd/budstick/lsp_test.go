package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// What git has committed is told from what only stands in the work tree, in a
// checkout and outside of one.
func TestCommitted(t *testing.T) {
	if _, err := exec.LookPath("git"); err != nil {
		t.Skip("git is not here")
	}
	folder := filepath.Join(t.TempDir(), "a farm")
	if err := os.MkdirAll(folder, 0o755); err != nil {
		t.Fatal(err)
	}
	put := func(name, text string) string {
		path := filepath.Join(folder, name)
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return path
	}
	want := func(when, path, text string) {
		t.Helper()
		f, err := committed(path)
		switch {
		case err != nil:
			t.Errorf("%s: %v", when, err)
		case f == nil && text != "", f != nil && string(f.Bytes) != text:
			t.Errorf("%s: %v, want %q", when, f, text)
		}
	}
	path := put("season 1.bud", "note \"one\"\n")
	want("outside a checkout", path, "")
	run := func(args ...string) {
		t.Helper()
		args = append([]string{"-c", "user.name=Ines", "-c", "user.email=ines@kestrel.example"}, args...)
		if _, err := git(folder, args...); err != nil {
			t.Fatal(err)
		}
	}
	run("init", "--quiet")
	want("before the first commit", path, "")
	run("add", ".")
	want("staged", path, "")
	run("commit", "--quiet", "--message", "one")
	put("season 1.bud", "note \"two\"\n")
	want("committed, and changed since", path, "note \"one\"\n")
	want("never committed", put("new.bud", "note \"three\"\n"), "")
	want("not there", filepath.Join(folder, "none.bud"), "")
	want("in no folder", filepath.Join(folder, "none", "none.bud"), "")
}

// Journals in a folder, and those below it.
func TestJournalsIn(t *testing.T) {
	folder := t.TempDir()
	for _, name := range []string{"a.bud", "b.txt", ".c.bud", "below/d.bud", "e.bud/f.bud"} {
		path := filepath.Join(folder, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, nil, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for deep, want := range map[bool][]string{false: {"a.bud"}, true: {"a.bud", "below/d.bud", "e.bud/f.bud"}} {
		files, err := journalsIn(folder, deep)
		if err != nil || len(files) != len(want) {
			t.Errorf("deep %v: %d files, %v", deep, len(files), err)
			continue
		}
		for i, f := range files {
			if f.Path != filepath.Join(folder, filepath.FromSlash(want[i])) {
				t.Errorf("deep %v: %s, want %s", deep, f.Path, want[i])
			}
		}
	}
	if files, err := journalsIn(filepath.Join(folder, "none"), true); files != nil || err != nil {
		t.Errorf("a folder that is not there: %v, %v", files, err)
	}
}
