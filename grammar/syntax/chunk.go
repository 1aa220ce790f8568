package syntax

import (
	"bytes"

	"github.com/budstick/budstick/grammar/source"
)

// A Chunk is one entry's text: from its first character in column one to the
// end of its last line that says something. Stray marks lines that begin
// indented with no entry above them to go on with.
type Chunk struct {
	Span  source.Span
	Line  int32 // from 1
	Stray bool
}

// Chunks cuts a file into entries and hands each to f in order, until f says
// false. A line that starts in column one starts an entry; an indented one goes
// on with the entry above; blank lines and comment lines belong to none, and
// never end one. closed reports for a chunk whether nothing may go on with it,
// as nothing does with a day line.
func Chunks(file *source.File, closed func(source.Span) bool, f func(Chunk) bool) {
	b := file.Bytes
	var open Chunk
	have, takes := false, false
	line := int32(0)
	for off := int(file.Start()); off < len(b); {
		line++
		end, next := len(b), len(b)
		if i := bytes.IndexByte(b[off:], '\n'); i >= 0 {
			end, next = off+i, off+i+1
		}
		span := source.Span{Start: int32(off), End: int32(trimEnd(b, off, end))}
		start := indent(b, off, int(span.End))
		switch {
		case start == int(span.End) || b[start] == '#':
		case start > off && takes:
			open.Span.End = span.End
		default:
			if have && !f(open) {
				return
			}
			stray := start > off
			open = Chunk{source.Span{Start: int32(start), End: span.End}, line, stray}
			have, takes = true, stray || !closed(open.Span)
		}
		off = next
	}
	if have {
		f(open)
	}
}

// indent is the offset of the first character that is no blank, up to end.
func indent(b []byte, off, end int) int {
	for off < end {
		c, size := classOf(b, off)
		if c != blank && b[off] != '\r' {
			break
		}
		off += size
	}
	return off
}

// trimEnd takes plain blanks off the end of a line.
func trimEnd(b []byte, off, end int) int {
	for end > off && (b[end-1] == ' ' || b[end-1] == '\t' || b[end-1] == '\r') {
		end--
	}
	return end
}

// IsDay reports whether a chunk is a day line: it begins with a digit, as
// nothing else does.
func IsDay(file *source.File) func(source.Span) bool {
	return func(s source.Span) bool { return file.Bytes[s.Start] >= '0' && file.Bytes[s.Start] <= '9' }
}
