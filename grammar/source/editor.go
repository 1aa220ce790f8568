package source

import (
	"bytes"
	"sort"
	"unicode/utf16"
	"unicode/utf8"
)

// An Encoding is what an editor counts along a line (LSP 3.17,
// PositionEncodingKind).
type Encoding uint8

// The encodings that are spoken. An editor that asks for none means UTF16.
const (
	UTF16 Encoding = iota
	UTF8
)

// rowTable builds the table of an editor's lines on first use. Where no CR
// stands alone they are the file's own.
func (f *File) rowTable() []int32 {
	f.rowsOnce.Do(func() {
		f.rows = f.table()
		if bytes.Count(f.Bytes, []byte{'\r'}) == bytes.Count(f.Bytes, []byte("\r\n")) {
			return
		}
		f.rows = []int32{0}
		for i, c := range f.Bytes {
			if c == '\n' || c == '\r' && (i+1 == len(f.Bytes) || f.Bytes[i+1] != '\n') {
				f.rows = append(f.rows, int32(i+1))
			}
		}
	})
	return f.rows
}

// Rows is the number of lines as an editor counts them: one more than there
// are ends of lines, which are LF, CR LF and CR alone (LSP 3.17, Text
// Documents).
func (f *File) Rows() int { return len(f.rowTable()) }

// rowEnd is the end of a row, without what ends it.
func (f *File) rowEnd(row int) int32 {
	if row+1 >= len(f.rows) {
		return int32(len(f.Bytes))
	}
	end := f.rows[row+1] - 1
	if end > f.rows[row] && f.Bytes[end] == '\n' && f.Bytes[end-1] == '\r' {
		end--
	}
	return end
}

// RowColumn is where the byte at off stands in an editor: both numbers count
// from 0, and a byte-order mark is a character like any other.
func (f *File) RowColumn(off int32, e Encoding) (row, column int) {
	t := f.rowTable()
	off = min(max(off, 0), int32(len(f.Bytes)))
	row = sort.Search(len(t), func(i int) bool { return t[i] > off }) - 1
	before := f.Bytes[t[row]:off]
	if e == UTF8 {
		return row, len(before)
	}
	return row, utf16Len(before)
}

func utf16Len(b []byte) int {
	n := 0
	for len(b) > 0 {
		r, size := utf8.DecodeRune(b)
		n += max(utf16.RuneLen(r), 1)
		b = b[size:]
	}
	return n
}

// RowOffset is the inverse of RowColumn. A column behind the end of its row is
// read as that end, and one in the middle of a character as its start (LSP
// 3.17, Position). It reports false where the file has no such row, or the
// numbers are below zero.
func (f *File) RowOffset(row, column int, e Encoding) (int32, bool) {
	t := f.rowTable()
	if row < 0 || row >= len(t) || column < 0 {
		return 0, false
	}
	off, end := t[row], f.rowEnd(row)
	for off < end {
		r, size := utf8.DecodeRune(f.Bytes[off:end])
		if column -= width(r, size, e); column < 0 {
			break
		}
		off += int32(size)
	}
	return off, true
}

func width(r rune, size int, e Encoding) int {
	if e == UTF8 {
		return size
	}
	return max(utf16.RuneLen(r), 1)
}
