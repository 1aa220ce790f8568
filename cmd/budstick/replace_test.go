package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestReplaceFile(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "shed.bud")
	for _, text := range []string{"first", "second, and longer", ""} {
		if err := replaceFile(path, []byte(text)); err != nil {
			t.Fatal(err)
		}
		if got, err := os.ReadFile(path); err != nil || string(got) != text {
			t.Errorf("the file holds %q (%v), want %q", got, err, text)
		}
	}
	if list, err := os.ReadDir(folder); err != nil || len(list) != 1 {
		t.Errorf("something was left behind: %v %v", list, err)
	}
}

// Whoever has the old file open goes on reading the old text: it is not written
// over, but another takes its name.
func TestReplaceFileLeavesTheOldOneWhole(t *testing.T) {
	path := filepath.Join(t.TempDir(), "shed.bud")
	if err := os.WriteFile(path, []byte("old"), 0o644); err != nil {
		t.Fatal(err)
	}
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := replaceFile(path, []byte("new")); err != nil {
		t.Fatal(err)
	}
	got := make([]byte, 10)
	if n, _ := f.Read(got); string(got[:n]) != "old" {
		t.Errorf("the open file holds %q", got[:n])
	}
}

func TestReplaceFileRefuses(t *testing.T) {
	folder := t.TempDir()
	tests := []struct{ name, path, want string }{
		{"a folder", folder, "can't be written: it is no file but a folder, a pipe or a device"},
		{"a device", os.DevNull, "can't be written: it is no file but a folder, a pipe or a device"},
		{"a folder that is not there", filepath.Join(folder, "gone", "a.bud"), "can't be written: it is not there"},
	}
	for _, test := range tests {
		err := replaceFile(test.path, []byte("x"))
		if err == nil || !strings.HasSuffix(err.Error(), test.want) {
			t.Errorf("%s: %v, want %s", test.name, err, test.want)
		}
	}
}

// A new journal takes nobody's place, not even that of an empty file, and one that
// was read is written only where it is still what was read.
func TestRewriteFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "shed.bud")
	for _, step := range []struct {
		name     string
		was, now []byte
		refused  bool
	}{
		{"of one that is not there", []byte("old"), []byte("new"), true},
		{"a new one", nil, []byte{}, false},
		{"in the place of an empty one", nil, []byte("mine"), true},
		{"from what was read", []byte{}, []byte("ours"), false},
		{"from what was there before", []byte{}, []byte("mine"), true},
		{"once more", []byte("ours"), []byte("ours too"), false},
	} {
		before, _ := os.ReadFile(path)
		err := rewriteFile(path, step.was, step.now)
		after, _ := os.ReadFile(path)
		want := step.now
		if step.refused {
			want = before
		}
		if (err != nil) != step.refused || !bytes.Equal(after, want) {
			t.Errorf("%s: %v, and the file holds %q", step.name, err, after)
		}
	}
}
