package lsp

import (
	"errors"
	"io/fs"
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"github.com/budstick/budstick/grammar/rule"
	"github.com/budstick/budstick/grammar/source"
)

// suffix ends the name of every journal file.
const suffix = ".bud"

// A journal is the files that are replayed together: those in and below a
// folder of the editor's, as they are on the disk or, where they are open, as
// they are in the editor.
type journal struct {
	server *server
	// What follows is guarded by server.mu.
	snap  *snapshot
	known verdict
	stop  func()

	wake  chan struct{} // a state is to be told of at once
	check chan struct{} // a state is to be checked
}

// A file is one file of a journal in one state.
type file struct {
	path    string
	uri     string
	version int
	open    bool
	opening int // tells one opening of a file from another
	*text
}

// A snapshot is a journal in one state. It is never changed.
type snapshot struct {
	files    []*file // by path
	memory   *rule.Memory
	replayed func() *replay
	checked  func() verdict
}

func newSnapshot(files []*file, m *rule.Memory) *snapshot {
	s := &snapshot{files: files, memory: m}
	s.replayed = sync.OnceValue(s.replay)
	s.checked = sync.OnceValue(s.check)
	return s
}

func (s *snapshot) index(path string) (int, bool) {
	return slices.BinarySearchFunc(s.files, path, func(f *file, path string) int { return strings.Compare(f.path, path) })
}

// file finds a file by its path, or is nil.
func (s *snapshot) file(path string) *file {
	if i, ok := s.index(path); ok {
		return s.files[i]
	}
	return nil
}

// with is the journal with a file put in, or in place of the one of its path.
func (s *snapshot) with(f *file) *snapshot {
	i, there := s.index(f.path)
	files := slices.Clone(s.files)
	if there {
		files[i] = f
	} else {
		files = slices.Insert(files, i, f)
	}
	return newSnapshot(files, s.memory)
}

// without is the journal without a file.
func (s *snapshot) without(path string) *snapshot {
	return newSnapshot(slices.DeleteFunc(slices.Clone(s.files), func(f *file) bool { return f.path == path }), s.memory)
}

// largeJournal is the number of entries from which on what reading finds is told
// before the rest is known. Tests make it small.
var largeJournal = 10_000

// large reports whether a check takes so long that a person would wait for it.
func (s *snapshot) large() bool {
	n := 0
	for _, f := range s.files {
		for _, b := range f.blocks {
			n += len(b.page.Entries)
		}
	}
	return n >= largeJournal
}

// journalKey names the journal that a file belongs to: the innermost folder of
// the editor's that holds it, else the folder it lies in, and what is in no
// file is a journal by itself.
func (s *server) journalKey(path string) string {
	best := ""
	for _, folder := range s.folders {
		if below(path, folder) && len(folder) > len(best) {
			best = folder
		}
	}
	switch {
	case best != "":
		return best
	case filepath.IsAbs(path):
		return filepath.Dir(path)
	}
	return path
}

// below reports whether a path lies in a folder or below it.
func below(path, folder string) bool {
	rest, ok := strings.CutPrefix(path, strings.TrimSuffix(folder, string(filepath.Separator)))
	return ok && strings.HasPrefix(rest, string(filepath.Separator))
}

// journalOf is the journal that a file belongs to.
func (s *server) journalOf(path string) *journal { return s.journalFor(s.journalKey(path)) }

// journalFor is the journal of a key, read from the disk if it is asked for the
// first time.
func (s *server) journalFor(key string) *journal {
	if j := s.journals[key]; j != nil {
		return j
	}
	j := s.newJournal(s.read(key))
	s.journals[key] = j
	return j
}

// read reads the files of a journal.
func (s *server) read(key string) []*file {
	if !filepath.IsAbs(key) {
		return nil
	}
	sources, err := s.Journals(key, slices.Contains(s.folders, key))
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		s.show(err.Error())
	}
	files := map[string]*file{}
	for _, f := range sources {
		path := filepath.Clean(f.Path)
		if s.journalKey(path) == key {
			files[path] = fromDisk(path, f)
		}
	}
	return slices.SortedFunc(maps.Values(files), func(a, b *file) int { return strings.Compare(a.path, b.path) })
}

// fromDisk is a file that is not open. Editors count no byte-order mark.
func fromDisk(path string, f *source.File) *file {
	return &file{path: path, uri: uriOfPath(path), text: newText(path, f.Bytes[f.Start():])}
}

// change puts a journal in another state, of which something is known already.
func (j *journal) change(to *snapshot, known verdict) {
	j.snap, j.known = to, known
	for _, f := range to.files {
		if fault := f.fault(); fault != nil {
			j.server.report(fault)
		}
	}
	if known.whole || to.large() {
		signal(j.wake)
	}
	if !known.whole {
		signal(j.check)
	}
}

// signal wakes whoever listens, once for any number of signals.
func signal(c chan struct{}) {
	select {
	case c <- struct{}{}:
	default:
	}
}

// didOpen takes a file over from the disk.
func (s *server) didOpen(p didOpenParams) error {
	d := p.TextDocument
	if len(d.Text) > source.MaxBytes {
		return errTooLarge
	}
	path := pathOfURI(d.URI)
	f := &file{path: path, uri: d.URI, version: d.Version, open: true, text: newText(path, []byte(d.Text))}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.openings++
	f.opening = s.openings
	j := s.journalOf(path)
	j.change(j.snap.with(f), j.known.without(path))
	return nil
}

var errTooLarge = errors.New("the text is larger than a journal file may be; it is left as it was")

// didClose gives a file back to the disk.
func (s *server) didClose(p struct {
	TextDocument textDocument `json:"textDocument"`
}) error {
	path := pathOfURI(p.TextDocument.URI)
	s.mu.Lock()
	defer s.mu.Unlock()
	key := s.journalKey(path)
	j := s.journals[key]
	if j == nil {
		return nil
	}
	if f := j.snap.file(path); f == nil || !f.open {
		return nil
	}
	s.reload(j, path)
	if !slices.ContainsFunc(j.snap.files, func(f *file) bool { return f.open }) {
		j.close()
		delete(s.journals, key)
	}
	return nil
}

// reload brings a file that is not open to what it is on the disk.
func (s *server) reload(j *journal, path string) {
	f, err := s.File(path)
	if err != nil || !filepath.IsAbs(path) {
		j.change(j.snap.without(path), j.known.without(path))
		return
	}
	j.change(j.snap.with(fromDisk(path, f)), j.known.without(path))
}

// didChangeWatchedFiles reads what has changed on the disk. A file that is open
// is what it is in the editor.
func (s *server) didChangeWatchedFiles(p watchedFilesParams) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, c := range p.Changes {
		path := pathOfURI(c.URI)
		j := s.journals[s.journalKey(path)]
		if j == nil || !strings.HasSuffix(path, suffix) {
			continue
		}
		if f := j.snap.file(path); f != nil && f.open || f == nil && c.Type == fileDeleted {
			continue
		}
		s.reload(j, path)
	}
	return nil
}

// didChangeWorkspaceFolders sorts open files anew among the folders.
func (s *server) didChangeWorkspaceFolders(p foldersParams) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, f := range p.Event.Removed {
		path := pathOfURI(f.URI)
		s.folders = slices.DeleteFunc(s.folders, func(folder string) bool { return folder == path })
	}
	for _, f := range p.Event.Added {
		if path := pathOfURI(f.URI); !slices.Contains(s.folders, path) {
			s.folders = append(s.folders, path)
		}
	}
	var open []*file
	for _, j := range s.journals {
		for _, f := range j.snap.files {
			if f.open {
				open = append(open, f)
			}
		}
		j.close()
	}
	clear(s.journals)
	for _, f := range open {
		j := s.journalOf(f.path)
		j.change(j.snap.with(f), verdict{})
	}
	return nil
}
