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
	now, kept := f.text, j.found
	for _, c := range p.ContentChanges {
		e, err := s.editOf(now, c)
		if err != nil {
			return fmt.Errorf("%w; the text is left as it was", err)
		}
		now = now.edit(e.start, e.end, e.with)
		kept = kept.through(path, e, now)
	}
	edited := *f
	edited.text, edited.version = now, p.TextDocument.Version
	j.change(j.snap.with(&edited), kept)
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

// found is what the last check found, by file, with places in the text as it is
// now. Lists are never changed.
type found map[string][]finding.Finding

// without leaves out what was found in a file.
func (f found) without(path string) found {
	out := found{}
	for p, list := range f {
		if p != path {
			out[p] = list
		}
	}
	return out
}

// through is what may still be so after an edit of a file: what the edit does
// not touch, and what is not about an entry that can't be read any more.
func (f found) through(path string, e edit, now *text) found {
	out := found{}
	broken := now.brokenIn(e.start, e.start+int32(len(e.with)))
	for p, list := range f {
		out[p] = make([]finding.Finding, 0, len(list))
		for _, one := range list {
			ok := true
			if p == path {
				one, ok = movedFinding(one, e)
			}
			one.Related = movedRelated(one.Related, path, e)
			if ok && !(p == path && slices.ContainsFunc(broken, func(s source.Span) bool { return s.Contains(one.Span.Start) })) {
				out[p] = append(out[p], one)
			}
		}
	}
	return out
}

func movedFinding(f finding.Finding, e edit) (finding.Finding, bool) {
	var ok bool
	if f.Span, ok = e.moved(f.Span); !ok {
		return f, false
	}
	if f.Mend != nil {
		mend := *f.Mend
		if mend.Span, ok = e.moved(mend.Span); ok {
			f.Mend = &mend
		} else {
			f.Mend = nil
		}
	}
	return f, true
}

// movedRelated leaves out places that the edit touches.
func movedRelated(list []finding.Related, path string, e edit) []finding.Related {
	if !slices.ContainsFunc(list, func(r finding.Related) bool { return r.File.Path == path }) {
		return list
	}
	var out []finding.Related
	for _, r := range list {
		ok := true
		if r.File.Path == path {
			r.Span, ok = e.moved(r.Span)
		}
		if ok {
			out = append(out, r)
		}
	}
	return out
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
