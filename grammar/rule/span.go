package rule

import (
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/source"
)

// firstLine is the first line of an entry.
func firstLine(e *fact.Entry) source.Span {
	s := e.Span
	if line := e.File.LineSpan(e.File.Line(s.Start)); line.End < s.End {
		s.End = line.End
	}
	return s
}

// spanOf finds where an entry names something, or gives its first line.
func spanOf(e *fact.Entry, name string) source.Span {
	text := e.File.Text(e.Span)
	for _, written := range []string{`"` + name + `"`, name} {
		for from := 0; ; {
			i := strings.Index(text[from:], written)
			if i < 0 {
				break
			}
			start, end := from+i, from+i+len(written)
			if (start == 0 || isEdge(text[start-1])) && (end == len(text) || isEdge(text[end])) {
				return source.Span{Start: e.Span.Start + int32(start), End: e.Span.Start + int32(end)}
			}
			from = end
		}
	}
	return firstLine(e)
}

// isEdge reports whether a name can end beside a byte.
func isEdge(c byte) bool { return strings.IndexByte(" \t\r\n,:\"", c) >= 0 }

// plants counts plants in words: 1 plant, 2 plants.
func plants(n int32) string { return finding.Counted(n, "plant", "plants") }

// days counts days in words.
func days(n fact.Date) string { return finding.Counted(n, "day", "days") }
