// Package format lays a journal out: it parts words by one blank, indents what
// goes on with an entry by two, sets a comment two blanks behind what it is
// about, and writes keywords, units, quotes and dashes in their plain form. It
// never changes a word, a text or a comment, nor the number of lines, and
// touches nothing above the last seal.
//
// How an entry is laid out depends on that entry alone, and there are no
// options. It is written for one file at a time and only where all of it can be
// read: a file with an error is left as it is.
//
// The ends of lines follow the first one of the file, LF or CR LF, and the last
// line gets one if it has none. A byte-order mark stays.
package format

import (
	"bytes"
	"slices"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/grammar/syntax"
)

// File lays a whole file out. Where the file has an error it returns the
// findings of the reading, nothing else, and false.
func File(f *source.File) (formatted []byte, findings []finding.Finding, ok bool) {
	p := entry.Read(f)
	edits, ok := Edits(p, source.Span{Start: 0, End: int32(len(f.Bytes))})
	if !ok {
		return nil, p.Standing(), false
	}
	return Apply(f.Bytes, edits), p.Standing(), true
}

// Lines lays out the entries that stand on some lines of a file, counted from 1,
// whatever stands on others. Where one of those entries has an error it returns
// the errors in them, nothing else, and false. What lies behind the end of the
// file is no line.
func Lines(f *source.File, first, last int) (formatted []byte, errors []finding.Finding, ok bool) {
	p := entry.Read(f)
	if f.NotText() >= 0 {
		return nil, p.Findings, false
	}
	part := source.Span{Start: f.LineSpan(first).Start, End: f.LineSpan(last + 1).Start}
	syntax.Chunks(f, syntax.IsDay(f), func(c syntax.Chunk) bool {
		if c.Span.Start < part.End && part.Start < c.Span.End {
			part = source.Span{Start: min(part.Start, c.Span.Start), End: max(part.End, f.LineSpan(f.Line(c.Span.End)+1).Start)}
		}
		return true
	})
	part.Start = max(part.Start, sealed(p))
	for _, found := range p.Findings {
		if found.Severity == finding.Error && part.Contains(found.Span.Start) {
			errors = append(errors, found)
		}
	}
	if len(errors) > 0 {
		return nil, errors, false
	}
	if part.End <= part.Start {
		return f.Bytes, nil, true
	}
	// Alone it has no error that could keep it from being laid out.
	own := source.New(f.Path, f.Bytes[part.Start:part.End])
	edits, _ := Edits(&entry.Page{File: own}, source.Span{End: int32(len(own.Bytes))})
	out := append(bytes.Clone(f.Bytes[:part.Start]), Apply(own.Bytes, edits)...)
	return append(out, f.Bytes[part.End:]...), nil, true
}

// Edits is what File changes in the lines that within touches: at most one edit
// for an entry, with its whole lines, and one for each line that belongs to
// none. They are in order, apart, and each changes something. An empty span
// means the line that it stands on. Edits reports false, and gives none, where
// the page has an error anywhere.
func Edits(p *entry.Page, within source.Span) (edits []finding.Mend, ok bool) {
	if finding.Worst(p.Standing()) == finding.Error {
		return nil, false
	}
	struck := p.Struck()
	b := p.File.Bytes
	l := layout{file: p.File, within: within, eol: "\n"}
	if i := bytes.IndexByte(b, '\n'); i > 0 && b[i-1] == '\r' {
		l.eol = "\r\n"
	}
	at := sealed(p)
	syntax.Chunks(p.File, syntax.IsDay(p.File), func(c syntax.Chunk) bool {
		if c.Span.Start < at {
			return true
		}
		l.between(at, c.Span.Start)
		if slices.ContainsFunc(struck, func(b entry.Broken) bool { return b.Span.Start == c.Span.Start }) {
			at = l.nextLine(c.Span.End) // it can't be read, so it stays as it is
			return true
		}
		at = l.entry(c)
		return true
	})
	l.between(at, int32(len(b)))
	return l.edits, true
}

// sealed is the offset of the last seal's line, above which nothing may be
// changed, or without a seal the beginning of the text.
func sealed(p *entry.Page) int32 {
	for i := len(p.Entries) - 1; i >= 0; i-- {
		if _, ok := p.Entries[i].Effect.(*fact.Seal); ok {
			return p.Entries[i].Span.Start
		}
	}
	return p.File.Start()
}

// Apply puts edits, which are in order and apart, into b.
func Apply(b []byte, edits []finding.Mend) []byte {
	out := make([]byte, 0, len(b)+1)
	at := int32(0)
	for _, e := range edits {
		out = append(out, b[at:e.Span.Start]...)
		out = append(out, e.Text...)
		at = e.Span.End
	}
	return append(out, b[at:]...)
}
