package lsp

import (
	"context"
	"math/bits"
	"sync"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/grammar/source"
)

// A replay is a journal replayed, with the way back from its entries to the
// files they stand in.
type replay struct {
	*nursery.Nursery
	snap   *snapshot
	labels func() map[target]bool // those that stand somewhere
}

// replay replays the journal. Both it and check are called once, by whoever
// asks first; others wait.
func (s *snapshot) replay() *replay {
	pages := make([]*entry.Page, len(s.files))
	for i, f := range s.files {
		pages[i] = f.page()
	}
	return &replay{nursery.Replay(pages, 0), s, sync.OnceValue(s.findLabels)}
}

// findLabels finds the names that are declared nowhere, where it is plain of
// which class they are.
func (s *snapshot) findLabels() map[target]bool {
	found := map[target]bool{}
	for _, f := range s.files {
		for _, b := range f.blocks {
			for _, m := range b.names() {
				if m.of&labels != 0 && bits.OnesCount32(uint32(m.of)) == 1 {
					found[target{m.of, m.key}] = true
				}
			}
		}
	}
	return found
}

// check is all that is to be said about the journal beside what reading finds,
// in the words of the linter.
func (s *snapshot) check() verdict {
	n := s.replayed().Nursery
	v := verdict{found: map[string][]finding.Finding{}, whole: true, missed: n.Missed}
	list := placedBy(s.memory.Check(n), func(f *source.File) (*text, bool) {
		if at := s.file(pathOf(f)); at != nil {
			return at.text, true
		}
		return nil, false
	})
	for _, f := range list {
		v.found[f.File.Path] = append(v.found[f.File.Path], f)
	}
	return v
}

// within waits for a value, or until nobody wants it any more.
func within[T any](ctx context.Context, value func() T) (T, error) {
	type outcome struct {
		value T
		panic any
	}
	done := make(chan outcome, 1)
	go func() {
		defer func() {
			if p := recover(); p != nil {
				done <- outcome{panic: p}
			}
		}()
		done <- outcome{value: value()}
	}()
	select {
	case o := <-done:
		if o.panic != nil {
			panic(o.panic)
		}
		return o.value, nil
	case <-ctx.Done():
		var none T
		return none, ctx.Err()
	}
}

// place is where an entry stands: its file, and its span in the whole of it.
func (r *replay) place(e *fact.Entry) (*file, source.Span) {
	f := r.snap.file(pathOf(e.File))
	s, _ := f.absolute(e.File, e.Span)
	return f, s
}

// A spot is a place in time as a journal tells it: behind all that stands above
// an offset of a file on its day, and behind all earlier days.
type spot struct {
	path string
	day  fact.Date
	line int32 // of the file, from 1
}

// spotAt is the spot at an offset of a file.
func (t *text) spotAt(off int32) spot {
	i := t.at(off)
	b := t.blocks[i]
	line := int32(b.file.Line(off - t.starts[i]))
	return spot{t.name.Path, b.dayAt(off - t.starts[i]), t.lines[i] + line}
}

// above reports whether an entry comes before a spot.
func (r *replay) above(e *fact.Entry, s spot) bool {
	if e.Date != s.day {
		return e.Date < s.day
	}
	path := pathOf(e.File)
	return path < s.path || path == s.path && e.Line < s.line
}
