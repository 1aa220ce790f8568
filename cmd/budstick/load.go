package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"
	"sync"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/grammar/rule"
	"github.com/budstick/budstick/grammar/source"
)

// suffix ends the name of every journal file.
const suffix = ".bud"

// stdinFile is the argument that means standard input.
const stdinFile = "-"

// A journal is the files that a run is about; together they are one journal.
type journal struct{ pages []*entry.Page }

// names are the files' names, in order.
func (j journal) names() []string {
	list := make([]string, len(j.pages))
	for i, p := range j.pages {
		list[i] = p.File.Path
	}
	return list
}

// at is the number of the page of a file.
func (j journal) at(path string) (int, error) {
	i := slices.IndexFunc(j.pages, func(p *entry.Page) bool { return filepath.Clean(p.File.Path) == filepath.Clean(path) })
	if i < 0 {
		return i, fmt.Errorf("%s is not among the files of the journal%s", path, orMeant(path, j.names()))
	}
	return i, nil
}

// entries is how many entries could be read.
func (j journal) entries() int {
	n := 0
	for _, p := range j.pages {
		n += len(p.Entries)
	}
	return n
}

// load finds, reads and parses the files that the arguments name: files,
// folders, which stand for the journals in and below them, and standard input.
// No argument means the folder at hand. All that goes wrong is told at once.
func load(t *terminal, args []string, stdinName string) (journal, error) {
	if !slices.Contains(args, stdinFile) { // where a person may be writing
		defer t.doing("reading the journal")()
	}
	files, err := read(t, args, stdinName)
	if err != nil {
		return journal{}, err
	}
	spareMemory(files)
	j := journal{make([]*entry.Page, len(files))}
	each(len(files), func(i int) { j.pages[i] = entry.Read(files[i]) })
	return j, nil
}

// replay replays the whole journal.
func (j journal) replay(t *terminal) *nursery.Nursery {
	defer t.doing("replaying " + counted(j.entries(), "entry", "entries"))()
	return nursery.Replay(j.pages, 0)
}

// lint replays the journal and looks it over.
func (j journal) lint(t *terminal) (*nursery.Nursery, []finding.Finding) {
	defer t.doing("looking over " + counted(j.entries(), "entry", "entries"))()
	n := nursery.Replay(j.pages, 0)
	return n, rule.Check(n)
}

// smallJournal is the bytes up to which the program's memory need not be spared.
const smallJournal = 8 << 20

// rarely and often are how far memory may grow, in per cent, before what is no
// longer used of it is looked for. A run over a small journal is over sooner if
// that is seldom done: measured on the example farm, 36 ms instead of 45.
const rarely, often = 400, 100

// spareMemory keeps a large journal from taking much more than it needs.
func spareMemory(files []*source.File) {
	total := 0
	for _, f := range files {
		total += len(f.Bytes)
	}
	if total > smallJournal {
		debug.SetGCPercent(often)
	}
}

// read finds and reads the files that the arguments name.
func read(t *terminal, args []string, stdinName string) ([]*source.File, error) {
	paths, err := find(args)
	if err != nil {
		return nil, err
	}
	files := make([]*source.File, len(paths))
	faults := make([]error, len(paths))
	each(len(paths), func(i int) {
		var b []byte
		name := paths[i]
		if name == stdinFile {
			name = stdinName
			b, faults[i] = readAll(t.in)
		} else {
			b, faults[i] = readFile(name)
		}
		if faults[i] != nil {
			faults[i] = fmt.Errorf("%s can't be read: %w", name, faults[i])
		}
		files[i] = source.New(name, b)
	})
	return files, errors.Join(faults...)
}

// each calls f for the numbers below n, several at a time.
func each(n int, f func(i int)) {
	next := make(chan int)
	var wait sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		wait.Go(func() {
			for i := range next {
				f(i)
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	wait.Wait()
}

// find lists the files that the arguments name, in order, each once however
// often and by whatever way it is named.
func find(args []string) ([]string, error) {
	if len(args) == 0 {
		args = []string{"."}
	}
	var paths []string
	var faults []error
	for _, arg := range args {
		found, err := findOne(arg)
		paths = append(paths, found...)
		faults = append(faults, err)
	}
	if err := errors.Join(faults...); err != nil {
		return nil, err
	}
	paths = distinct(paths)
	slices.Sort(paths)
	return paths, nil
}

// findOne lists the files that one argument names.
func findOne(arg string) ([]string, error) {
	if arg == stdinFile {
		return []string{arg}, nil
	}
	info, err := os.Stat(arg)
	switch {
	case err != nil:
		return nil, unreadable(arg, err)
	case !info.IsDir():
		return []string{arg}, nil
	}
	paths, err := below(arg)
	if err == nil && len(paths) == 0 {
		err = fmt.Errorf("there is no journal in %s or below it; a journal's name ends in %s", arg, suffix)
	}
	return paths, err
}

// namesFile reports whether an argument after names is the first of the files:
// it is one, or is written as a journal is.
func namesFile(arg string) bool {
	_, err := os.Stat(arg)
	return err == nil || arg == stdinFile || strings.HasSuffix(arg, suffix)
}

// unreadable says why a path can't be read, and where it is not there, which one
// may have been meant.
func unreadable(path string, err error) error {
	if !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("%s can't be read: %w", path, reason(err))
	}
	if _, err := os.Lstat(path); err == nil {
		return fmt.Errorf("%s is a link to a file that is not there", path)
	}
	var names []string
	list, _ := os.ReadDir(filepath.Dir(path))
	for _, e := range list {
		names = append(names, filepath.Join(filepath.Dir(path), e.Name()))
	}
	return fmt.Errorf("there is no file %s%s", path, orMeant(path, names))
}

// below lists the journals in a folder and the folders in it. What begins with a
// dot, and folders behind a link, are passed over; a link to a file is a file.
func below(folder string) ([]string, error) {
	// The slash makes the walk follow a folder that is a link itself.
	root := folder + string(filepath.Separator)
	var paths []string
	var faults []error
	walk := func(path string, e fs.DirEntry, err error) error {
		switch {
		case err != nil:
			faults = append(faults, unreadable(path, err))
		case path == root:
		case strings.HasPrefix(e.Name(), "."):
			if e.IsDir() {
				return fs.SkipDir
			}
		case !e.IsDir() && strings.HasSuffix(e.Name(), suffix):
			ok, err := isJournal(path)
			faults = append(faults, err)
			if ok {
				paths = append(paths, path)
			}
		}
		return nil
	}
	err := filepath.WalkDir(root, walk)
	return paths, errors.Join(append(faults, err)...)
}

// isJournal reports whether what a folder holds under a journal's name is a
// file, or leads to one. What is neither file nor folder is an error: reading it
// may take for ever.
func isJournal(path string) (bool, error) {
	info, err := os.Stat(path)
	switch {
	case err != nil:
		return false, unreadable(path, err)
	case info.IsDir():
		return false, nil
	case !info.Mode().IsRegular():
		return false, fmt.Errorf("%s is no file but a pipe or a device; name it on the command line to read it", path)
	}
	return true, nil
}

// distinct leaves out files that are there already by the same or another name.
// Where one is a link to another, the other stays.
func distinct(paths []string) []string {
	seen := map[string]bool{}
	links := map[string]bool{}
	key := func(path string) string {
		if path == stdinFile {
			return path
		}
		real, err := filepath.EvalSymlinks(path)
		if err != nil { // such as a pipe of the shell
			real = path
		}
		if full, err := filepath.Abs(real); err == nil {
			real = full
		}
		return real
	}
	for _, path := range paths {
		info, err := os.Lstat(path)
		links[path] = err == nil && info.Mode()&fs.ModeSymlink != 0
		if !links[path] {
			seen[key(path)] = false // to be taken by its own name
		}
	}
	var out []string
	for _, path := range paths {
		k := key(path)
		taken, own := seen[k]
		if taken || own && links[path] {
			continue
		}
		seen[k] = true
		out = append(out, path)
	}
	return out
}

// readFile reads a file, unless it is larger than any journal may be.
func readFile(path string) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, reason(err)
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil && info.Size() > source.MaxBytes {
		return nil, errTooLarge
	}
	return readAll(f)
}

var errTooLarge = fmt.Errorf("it is larger than a journal file may be (%d MB); part it into several", source.MaxBytes>>20)

// readAll reads to the end.
func readAll(r io.Reader) ([]byte, error) {
	b, err := io.ReadAll(io.LimitReader(r, source.MaxBytes+1))
	switch {
	case err != nil:
		return nil, reason(err)
	case len(b) > source.MaxBytes:
		return nil, errTooLarge
	}
	return b, nil
}

// reason says in plain words why something could not be read or written.
func reason(err error) error {
	var at *fs.PathError
	var link *os.LinkError
	switch {
	case errors.Is(err, fs.ErrPermission):
		return errors.New("you are not permitted to")
	case errors.Is(err, fs.ErrNotExist):
		return errors.New("it is not there")
	case errors.As(err, &at):
		return at.Err
	case errors.As(err, &link):
		return link.Err
	}
	return err
}
