package format

import (
	"bytes"
	"unicode"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/grammar/syntax"
)

// indent stands before what goes on with an entry, and before a comment that
// stands behind something.
const indent = "  "

// A layout writes the lines of one file anew, an entry or a line between
// entries at a time, and keeps what came out different.
type layout struct {
	file   *source.File
	within source.Span
	eol    string
	edits  []finding.Mend

	toks []syntax.Token
	out  []byte // the lines at hand
}

// between lays out the lines from start to end, which say nothing. A comment in
// column one stays there; any other is taken to go with the entry above it.
func (l *layout) between(start, end int32) {
	for start < end {
		next := l.nextLine(start)
		line := l.file.Bytes[start:next]
		l.out = l.out[:0]
		if line[0] == '#' {
			l.out = append(l.out, trimmed(line)...)
		} else {
			l.comment(line)
		}
		if len(l.out) > 0 || line[len(line)-1] == '\n' {
			l.out = append(l.out, l.eol...)
		}
		l.put(source.Span{Start: start, End: next})
		start = next
	}
}

// entry lays out the lines of an entry or a day, with the comments among them,
// and returns where the next line begins.
func (l *layout) entry(c syntax.Chunk) int32 {
	b := l.file.Bytes
	l.toks = syntax.Lex(b, c.Span, l.toks[:0])
	l.out = l.out[:0]
	at := c.Span.Start
	slots := l.slots()
	for i, t := range l.toks {
		if i > 0 {
			l.gap(b[at:t.Span.Start], t.Kind)
		}
		l.out = spell(l.out, t.Kind, l.file.Text(t.Span), slots[i])
		at = t.Span.End
	}
	next := l.nextLine(c.Span.End)
	l.comment(b[at:next])
	l.out = append(l.out, l.eol...)
	l.put(source.Span{Start: c.Span.Start, End: next})
	return next
}

// slots is what each token at hand is in its sentence. A day has no sentence;
// behind its date the weekday stands.
func (l *layout) slots() []syntax.Slot {
	if kind, ok := entry.Named(l.file.Text(l.toks[0].Span)); ok {
		return kind.Grammar.Path(l.file, l.toks)
	}
	day := make([]syntax.Slot, len(l.toks))
	for i := 1; i < len(day); i++ {
		day[i].Literal = weekday(l.file.Text(l.toks[i].Span))
	}
	return day
}

// gap writes what stands between two tokens, of which the second is a k: the
// ends of lines with their comments, or one blank, or before a comma or colon
// none.
func (l *layout) gap(g []byte, k syntax.Kind) {
	line, rest, more := bytes.Cut(g, []byte{'\n'})
	if !more {
		if k != syntax.Comma && k != syntax.Colon {
			l.out = append(l.out, ' ')
		}
		return
	}
	for more {
		l.comment(line)
		l.out = append(l.out, l.eol...)
		line, rest, more = bytes.Cut(rest, []byte{'\n'})
	}
	l.out = append(l.out, indent...)
}

// comment writes the comment of a line whose other text is blanks, if there is
// one.
func (l *layout) comment(line []byte) {
	if i := bytes.IndexByte(line, '#'); i >= 0 {
		l.out = append(l.out, indent...)
		l.out = append(l.out, trimmed(line[i:])...)
	}
}

func trimmed(line []byte) []byte { return bytes.TrimRightFunc(line, unicode.IsSpace) }

// nextLine is where the line behind the one at off begins.
func (l *layout) nextLine(off int32) int32 {
	if i := bytes.IndexByte(l.file.Bytes[off:], '\n'); i >= 0 {
		return off + int32(i) + 1
	}
	return int32(len(l.file.Bytes))
}

// put keeps the lines at hand as an edit of s, if they differ and s is touched.
func (l *layout) put(s source.Span) {
	from := min(l.within.Start, int32(len(l.file.Bytes))-1)
	touched := s.Start < max(l.within.End, from+1) && from < s.End
	if touched && !bytes.Equal(l.out, l.file.Bytes[s.Start:s.End]) {
		l.edits = append(l.edits, finding.Mend{Span: s, Text: string(l.out)})
	}
}
