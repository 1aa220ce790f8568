package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
)

// unlucky is the program on a disk that goes wrong at one step of writing, which
// the environment says: UNLUCKY="killed 3".
func unlucky() {
	u := &unluckyDisk{}
	if _, err := fmt.Sscan(os.Getenv("UNLUCKY"), &u.fate, &u.at); err != nil {
		panic(err)
	}
	files = disk{create: u.create, rename: u.rename, sync: u.syncFolder}
	main()
}

// The fates of an unlucky run.
const (
	killed = "killed" // the program ends there and then, as by SIGKILL
	dark   = "dark"   // the power fails: what was not synced is lost as well
	full   = "full"   // the step fails, as on a full disk, and the program goes on
)

// killedStatus is what a shell says of a program that SIGKILL ended.
const killedStatus = 137

type unluckyDisk struct {
	fate   string
	at     int // the step at which it strikes, from 1
	step   int
	drafts []*unluckyDraft
}

// strikes counts a step, and does what is due at it; half is what of the step is
// done before.
func (u *unluckyDisk) strikes(half func()) error {
	u.step++
	if u.step != u.at {
		return nil
	}
	half()
	switch u.fate {
	case full:
		return syscall.ENOSPC
	case dark:
		for _, d := range u.drafts {
			if !d.safe {
				_ = os.Truncate(d.path(), 0)
			}
		}
	}
	os.Exit(killedStatus)
	return nil
}

func nothing() {}

func (u *unluckyDisk) create(folder, pattern string) (draft, error) {
	if err := u.strikes(nothing); err != nil {
		return nil, err
	}
	f, err := os.CreateTemp(folder, pattern)
	d := &unluckyDraft{File: f, disk: u}
	u.drafts = append(u.drafts, d)
	return d, err
}

func (u *unluckyDisk) rename(from, to string) error {
	if err := u.strikes(nothing); err != nil {
		return err
	}
	for _, d := range u.drafts {
		if d.Name() == from {
			d.now = to
		}
	}
	return os.Rename(from, to)
}

func (u *unluckyDisk) syncFolder(folder string) error {
	if err := u.strikes(nothing); err != nil {
		return err
	}
	return syncFolder(folder)
}

type unluckyDraft struct {
	*os.File
	disk *unluckyDisk
	now  string // its name, once it has been renamed
	safe bool   // what was written is on the disk
}

func (d *unluckyDraft) path() string {
	if d.now != "" {
		return d.now
	}
	return d.Name()
}

func (d *unluckyDraft) Write(b []byte) (int, error) {
	n := 0
	if err := d.disk.strikes(func() { n, _ = d.File.Write(b[:len(b)/2]) }); err != nil {
		return n, err
	}
	return d.File.Write(b)
}

func (d *unluckyDraft) Chmod(mode fs.FileMode) error {
	if err := d.disk.strikes(nothing); err != nil {
		return err
	}
	return d.File.Chmod(mode)
}

func (d *unluckyDraft) Sync() error {
	if err := d.disk.strikes(nothing); err != nil {
		return err
	}
	d.safe = true
	return d.File.Sync()
}

func (d *unluckyDraft) Close() error {
	if err := d.disk.strikes(nothing); err != nil {
		d.File.Close()
		return err
	}
	return d.File.Close()
}

// The steps of writing a file, by their numbers.
const (
	renaming = 6
	allSteps = 7
)

// standing and season are a small journal; season is not laid out.
const (
	standing = `farm "Kestrel Hollow" currency EUR
variety "Quince BA" species "Cydonia oblonga" use rootstock
cause frost
`
	season = `2026-02-20
buy  50 liners of "Quince BA" as QB26
`
)

// Whatever ends a run at whatever step, a journal is the old one or the new one,
// whole, and what is left beside it is not read.
func TestJournalsAreWholeWhateverHappens(t *testing.T) {
	tests := []struct {
		name string
		args []string
		file string // the first that is written
		of   int    // the files that are written
	}{
		{"jot", []string{"jot", "lose 2 of QB26 to frost", "--day", "2026-02-21"}, "season.bud", 1},
		{"format", []string{"format", "-w"}, "season.bud", 1},
		{"seal", []string{"seal"}, "season.bud", 2},
		{"begin", []string{"begin", "--farm", "Hollow", "new/farm.bud"}, "new/farm.bud", 1},
		{"bring", []string{"bring", "book.csv", "book.map", "-o", "new/book.bud"}, "new/book.bud", 1},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			lucky := farmFolder(t)
			if code := runIn(t, lucky, "budstick", nil, test.args...); code != 0 {
				t.Fatalf("the lucky run ended with %d", code)
			}
			old, fresh := contents(t, farmFolder(t), test.file), contents(t, lucky, test.file)
			if old == fresh {
				t.Fatal("the run changes nothing")
			}
			last := allSteps * test.of
			other := map[string]bool{contents(t, farmFolder(t), "standing.bud"): true, contents(t, lucky, "standing.bud"): true}
			for _, fate := range []string{killed, dark, full} {
				for step := 1; step <= last; step++ {
					folder := farmFolder(t)
					code := runIn(t, folder, "unlucky", []string{fmt.Sprintf("UNLUCKY=%s %d", fate, step)}, test.args...)
					checkWhole(t, folder, test.file, old, fresh, fate, step, code)
					if got := contents(t, folder, "standing.bud"); !other[got] {
						t.Errorf("%s at step %d: standing.bud holds\n%s", fate, step, got)
					}
				}
			}
			if code := runIn(t, farmFolder(t), "unlucky", []string{fmt.Sprintf("UNLUCKY=killed %d", last+1)}, test.args...); code != 0 {
				t.Errorf("there is a step after step %d", last)
			}
		})
	}
}

// checkWhole looks over a folder after an unlucky run.
func checkWhole(t *testing.T, folder, file, old, fresh, fate string, step, code int) {
	t.Helper()
	wantCode, want := killedStatus, old
	if fate == full {
		wantCode = int(statusCannot)
	}
	if step > renaming {
		want = fresh
	}
	if code != wantCode {
		t.Errorf("%s at step %d: status %d, want %d", fate, step, code, wantCode)
	}
	if got := contents(t, folder, file); got != want {
		t.Errorf("%s at step %d: the journal holds\n%s\nwant\n%s", fate, step, got, want)
	}
	read, err := below(folder)
	if err != nil {
		t.Error(err)
	}
	whole := map[string]bool{"season.bud": true, "standing.bud": true, file: want != absent}
	for _, path := range read {
		name, _ := filepath.Rel(folder, path)
		if !whole[filepath.ToSlash(name)] {
			t.Errorf("%s at step %d: %s is read as a journal", fate, step, name)
		}
	}
	if left := dotFiles(t, folder); fate == full && len(left) > 0 {
		t.Errorf("%s at step %d: %v is left behind", fate, step, left)
	}
}

// dotFiles lists the files in and below a folder whose names begin with a dot.
func dotFiles(t *testing.T, folder string) []string {
	t.Helper()
	var list []string
	for _, pattern := range []string{".*", "*/.*"} {
		found, err := filepath.Glob(filepath.Join(folder, pattern))
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, found...)
	}
	return list
}

// absent stands for the contents of a file that is not there.
const absent = "(absent)"

func contents(t *testing.T, folder, file string) string {
	t.Helper()
	b, err := os.ReadFile(filepath.Join(folder, file))
	if errors.Is(err, fs.ErrNotExist) {
		return absent
	}
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// farmFolder makes a folder with the small journal in it.
func farmFolder(t *testing.T) string {
	t.Helper()
	folder := t.TempDir()
	if err := os.Mkdir(filepath.Join(folder, "new"), 0o755); err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{
		"season.bud": season, "standing.bud": standing, "book.csv": "Date\n2026-02-20\n", "book.map": "on Date\n  note \"a day\"\n",
	} {
		if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return folder
}

// runIn runs a program of the test binary as a process of its own in a folder,
// and returns its status.
func runIn(t *testing.T, folder, program string, env []string, args ...string) int {
	t.Helper()
	c := exec.Command(program, args...)
	c.Dir = folder
	c.Env = append(os.Environ(), env...)
	out, err := c.CombinedOutput()
	if exit := (*exec.ExitError)(nil); errors.As(err, &exit) {
		return exit.ExitCode()
	}
	if err != nil {
		t.Fatalf("%s: %v\n%s", program, err, out)
	}
	return 0
}

// Runs at once keep what each other wrote, also when they find the journal by
// different ways, and when its layout is tidied meanwhile.
func TestRunsAtOnceKeepEveryEntry(t *testing.T) {
	folder := farmFolder(t)
	ways := []struct {
		folder string
		files  []string
	}{
		{folder, nil},
		{filepath.Dir(folder), []string{folder}},
		{filepath.Dir(folder), []string{filepath.Join(folder, "season.bud"), filepath.Join(folder, "standing.bud")}},
	}
	const each = 4
	var runs sync.WaitGroup
	for i, way := range ways {
		for k := range each {
			runs.Go(func() {
				entry := fmt.Sprintf(`note QB26 "way %d, entry %d"`, i, k)
				if code := runIn(t, way.folder, "budstick", nil, append([]string{"jot", entry, "--day", "2026-02-21"}, way.files...)...); code != 0 {
					t.Errorf("way %d, entry %d ended with %d", i, k, code)
				}
			})
		}
	}
	runs.Go(func() {
		for range each {
			// It may find the journal changed and leave it alone.
			runIn(t, folder, "budstick", nil, "format", "-w")
		}
	})
	runs.Wait()
	got := contents(t, folder, "season.bud")
	for i := range ways {
		for k := range each {
			if entry := fmt.Sprintf("way %d, entry %d", i, k); strings.Count(got, entry) != 1 {
				t.Errorf("%s stands %d times in\n%s", entry, strings.Count(got, entry), got)
			}
		}
	}
	if code := runIn(t, folder, "budstick", nil, "lint"); code != 0 {
		t.Errorf("the journal has errors:\n%s", got)
	}
}
