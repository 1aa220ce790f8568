package lsp

import (
	"errors"
	"fmt"
	"slices"

	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/source"
)

// didChange edits an open file. All changes of a message are made, or where one
// of them can't be, none: a text that is half changed is neither the old nor
// the new one.
func (s *server) didChange(p didChangeParams) error {
	path := pathOfURI(p.TextDocument.URI)
	s.mu.Lock()
	defer s.mu.Unlock()
	j := s.journals[s.journalKey(path)]
	if j == nil {
		return errNotOpen
	}
	f := j.snap.file(path)
	if f == nil || !f.open {
		return errNotOpen
	}
	now, known := f.text, j.known
	for _, c := range p.ContentChanges {
		e, err := s.editOf(now, c)
		if err != nil {
			return fmt.Errorf("%w; the text is left as it was", err)
		}
		before := now
		now = before.edit(e.start, e.end, e.with)
		known = known.through(e, before, now)
	}
	edited := *f
	edited.text, edited.version = now, p.TextDocument.Version
	j.change(j.snap.with(&edited), known)
	return nil
}

var errNotOpen = errors.New("the file is not open")

// An edit puts text in place of the bytes from start to end.
type edit struct {
	start, end int32
	with       string
}

func (s *server) editOf(t *text, c contentChange) (edit, error) {
	if c.Text == nil {
		return edit{}, errors.New("a change has no text")
	}
	e := edit{0, t.len(), *c.Text}
	if c.Range != nil {
		var ok1, ok2 bool
		e.start, ok1 = t.offset(c.Range.Start, s.encoding)
		e.end, ok2 = t.offset(c.Range.End, s.encoding)
		if !ok1 || !ok2 || e.end < e.start {
			return edit{}, fmt.Errorf("from %d:%d to %d:%d is no part of the text",
				c.Range.Start.Line, c.Range.Start.Character, c.Range.End.Line, c.Range.End.Character)
		}
	}
	if int64(t.len())-int64(e.end-e.start)+int64(len(e.with)) > source.MaxBytes {
		return edit{}, errTooLarge
	}
	return e, nil
}

// moved is where a span of the old text lies in the new one; ok is false where
// the edit touches it.
func (e edit) moved(s source.Span) (_ source.Span, ok bool) {
	switch {
	case s.End <= e.start:
		return s, true
	case s.Start >= e.end:
		return shifted(s, int32(len(e.with))-(e.end-e.start)), true
	}
	return s, false
}

// A verdict is what the last check found, by file, with places in the text as
// it is now. It is never changed.
type verdict struct {
	found map[string][]finding.Finding
	// whole says that a check of the text as it is now would find the same.
	whole  bool
	missed map[string]bool // see nursery.Nursery
}

// without leaves out what was found in a file.
func (v verdict) without(path string) verdict {
	out := verdict{found: map[string][]finding.Finding{}}
	for p, list := range v.found {
		if p != path {
			out.found[p] = list
		}
	}
	return out
}

// through is what is known after an edit of a file from one text to another.
// Where nothing that counts has changed, that is all there is to know; else it
// is what may still be so: what the edit does not touch, and what is not about
// an entry that can't be read any more.
func (v verdict) through(e edit, from, to *text) verdict {
	m := mover{edit: e, path: to.name.Path, broken: to.brokenIn(e.start, e.start+int32(len(e.with)))}
	out := verdict{found: map[string][]finding.Finding{}, missed: v.missed}
	for path, list := range v.found {
		moved := make([]finding.Finding, 0, len(list))
		for _, f := range list {
			if m.move(&f, path) {
				moved = append(moved, f)
			}
		}
		out.found[path] = moved
	}
	out.whole = v.whole && !m.lost && sameFacts(e, from, to, v.missed)
	return out
}

// A mover moves findings to where they are after an edit.
type mover struct {
	edit
	path   string        // of the edited file
	broken []source.Span // entries about the edit that can't be read
	lost   bool          // something could not be moved
}

// move moves a finding of a file, or reports that it is to be left out.
func (m *mover) move(f *finding.Finding, path string) bool {
	if path == m.path {
		ok := m.span(&f.Span)
		if !ok || slices.ContainsFunc(m.broken, func(s source.Span) bool { return s.Contains(f.Span.Start) }) {
			m.lost = true
			return false
		}
		if f.Mend != nil {
			mend := *f.Mend
			f.Mend = &mend
			if !m.span(&mend.Span) {
				f.Mend = nil
			}
		}
	}
	f.Related = m.related(f.Related)
	return true
}

// related moves the places beside a finding.
func (m *mover) related(list []finding.Related) []finding.Related {
	if !slices.ContainsFunc(list, func(r finding.Related) bool { return r.File.Path == m.path }) {
		return list
	}
	var out []finding.Related
	for _, r := range list {
		if r.File.Path != m.path || m.span(&r.Span) {
			out = append(out, r)
		}
	}
	return out
}

// span moves a span of the edited file, unless the edit touches it.
func (m *mover) span(s *source.Span) (ok bool) {
	*s, ok = m.moved(*s)
	m.lost = m.lost || !ok
	return ok
}

// brokenIn is the entries that can't be read and lie in a part of the text or
// touch it.
func (t *text) brokenIn(start, end int32) []source.Span {
	var list []source.Span
	for i := t.at(start); i <= t.at(end); i++ {
		for _, b := range t.blocks[i].page.Broken {
			if s := shifted(b.Span, t.starts[i]); s.Start <= end && start <= s.End {
				list = append(list, s)
			}
		}
	}
	return list
}
