// Package source holds the bytes of a journal file and is the one place that
// turns a byte offset into what a person or an editor calls a position.
//
// Offsets are bytes from the start of the file. Lines and columns count from 1
// and columns count characters (Unicode code points). Rows and columns, of
// RowColumn and RowOffset, count from 0 and as an editor does.
package source

import (
	"bytes"
	"sort"
	"sync"
	"unicode/utf8"
)

// A Span is the half-open range of bytes [Start, End) in one file.
type Span struct{ Start, End int32 }

// Len is the number of bytes that s covers.
func (s Span) Len() int { return int(s.End - s.Start) }

// Contains reports whether the byte at off lies in s.
func (s Span) Contains(off int32) bool { return s.Start <= off && off < s.End }

// A Position is a place as a person names it: both numbers count from 1, and
// Column counts characters.
type Position struct{ Line, Column int }

// A File is one journal file: its name as messages show it and its bytes,
// which are never changed.
type File struct {
	Path  string
	Bytes []byte

	text  func() string // Bytes once more, for names that are cut out of it
	once  sync.Once
	lines []int32 // offset of the first byte of each line

	rowsOnce sync.Once
	rows     []int32 // the same for an editor's lines, see editor.go
}

// MaxBytes is the size of the largest file that is read: offsets are 32 bits.
const MaxBytes = 1 << 30

// bom is the mark that some editors put before the text.
var bom = []byte{0xEF, 0xBB, 0xBF}

// New wraps the bytes of a file; it keeps b and does not copy it.
func New(path string, b []byte) *File {
	return &File{Path: path, Bytes: b, text: sync.OnceValue(func() string { return string(b) })}
}

// Start is the offset of the first byte of text: 3 behind a byte-order mark,
// else 0.
func (f *File) Start() int32 {
	if bytes.HasPrefix(f.Bytes, bom) {
		return int32(len(bom))
	}
	return 0
}

// Text is the part of the file that s covers. It is cut out of one copy of the
// file's text and costs nothing.
func (f *File) Text(s Span) string { return f.text()[s.Start:s.End] }

// NotText gives the offset of the first byte that keeps the file from being
// UTF-8 text (a NUL, or a broken sequence), or -1 where all of it is text.
func (f *File) NotText() int {
	nul := bytes.IndexByte(f.Bytes, 0)
	if utf8.Valid(f.Bytes) {
		return nul
	}
	b := f.Bytes
	for off := 0; off < len(b); {
		if b[off] == 0 {
			return off
		}
		r, size := utf8.DecodeRune(b[off:])
		if r == utf8.RuneError && size == 1 {
			return off
		}
		off += size
	}
	return nul
}

// table builds the table of lines on first use. Only LF ends a line; a CR
// before it is part of the line's end.
func (f *File) table() []int32 {
	f.once.Do(func() {
		f.lines = make([]int32, 1, 1+bytes.Count(f.Bytes, []byte{'\n'}))
		for off := 0; ; {
			i := bytes.IndexByte(f.Bytes[off:], '\n')
			if i < 0 {
				break
			}
			off += i + 1
			f.lines = append(f.lines, int32(off))
		}
	})
	return f.lines
}

// Lines is the number of lines; a file that ends in a newline has an empty
// last one, as editors show it.
func (f *File) Lines() int { return len(f.table()) }

// Line is the number of the line that holds the byte at off.
func (f *File) Line(off int32) int {
	t := f.table()
	return sort.Search(len(t), func(i int) bool { return t[i] > off })
}

// LineSpan is the text of a line, without what ends it. A line that the file
// does not have is empty.
func (f *File) LineSpan(line int) Span {
	t := f.table()
	if line < 1 || line > len(t) {
		end := int32(len(f.Bytes))
		return Span{end, end}
	}
	start, end := t[line-1], int32(len(f.Bytes))
	if line < len(t) {
		end = t[line] - 1
		if end > start && f.Bytes[end-1] == '\r' {
			end--
		}
	}
	if start == 0 {
		start = min(f.Start(), end)
	}
	return Span{start, end}
}

// Position is where the byte at off stands. Offsets past the end are read as
// the end.
func (f *File) Position(off int32) Position {
	off = min(max(off, 0), int32(len(f.Bytes)))
	line := f.Line(off)
	start := f.LineSpan(line).Start
	return Position{line, 1 + utf8.RuneCount(f.Bytes[min(start, off):off])}
}

// Offset is the inverse of Position: the byte at a character of a line, or the
// line's end where the line is shorter.
func (f *File) Offset(p Position) int32 {
	s := f.LineSpan(p.Line)
	off := s.Start
	for n := 1; n < p.Column && off < s.End; n++ {
		_, size := utf8.DecodeRune(f.Bytes[off:s.End])
		off += int32(size)
	}
	return off
}
