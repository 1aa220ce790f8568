package render

import (
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/rivo/uniseg"

	"github.com/budstick/budstick/grammar/screen"
	"github.com/budstick/budstick/grammar/source"
)

// A piece is a part of a line to be shown: what is marked, with what stands
// before and after it on the line.
type piece struct{ before, marked, after string }

// nearby is how many bytes of a line are looked at on each side of a mark. It
// is far more than fits, and keeps a line of megabytes from costing anything.
const nearby = 2048

// pieceOf cuts the line where a span begins; of a span over several lines only
// the first is shown.
func pieceOf(file *source.File, s source.Span) piece {
	line := file.LineSpan(file.Line(min(s.Start, int32(len(file.Bytes)))))
	start := min(max(s.Start, line.Start), line.End)
	end := min(max(s.End, start), line.End)
	return piece{
		before: lastBytes(string(file.Bytes[max(line.Start, start-2*nearby):start])),
		marked: cut(string(file.Bytes[start:min(end, start+2*nearby)]), nearby),
		after:  cut(string(file.Bytes[end:min(line.End, end+2*nearby)]), nearby),
	}
}

// lastBytes is the end of s, beginning with a whole character.
func lastBytes(s string) string {
	if len(s) <= nearby {
		return s
	}
	from := len(s) - nearby
	for from < len(s) && !utf8.RuneStart(s[from]) {
		from++
	}
	return s[from:]
}

// cut is at most the first n bytes of s, up to a whole character.
func cut(s string, n int) string {
	if len(s) <= n {
		return s
	}
	for n > 0 && !utf8.RuneStart(s[n]) {
		n--
	}
	return s[:n]
}

// A cell is a character as a person sees it.
type cell struct {
	text   string
	width  int
	marked bool
}

// tabWidth is the blanks shown for a tab.
const tabWidth = 4

// cells lays out a piece. Each of its three parts is taken by itself, so that a
// mark that begins within a character (an accent typed apart) still shows.
func (p piece) cells() []cell {
	list := make([]cell, 0, len(p.before)+len(p.marked)+len(p.after))
	for i, part := range []string{p.before, p.marked, p.after} {
		state := -1
		for len(part) > 0 {
			var cluster string
			cluster, part, _, state = uniseg.FirstGraphemeClusterInString(part, state)
			text := screen.Visible(cluster)
			if cluster == "\t" {
				text = strings.Repeat(" ", tabWidth)
			}
			list = append(list, cell{text, uniseg.StringWidth(text), i == 1})
		}
	}
	return list
}

// window chooses the cells that fit into a width: what is marked, from its
// first character, then what comes before it, then what comes after. A third of
// the room is kept for what comes before.
func window(list []cell, width int) (from, to int) {
	total := 0
	for _, c := range list {
		total += c.width
	}
	if total <= width {
		return 0, len(list)
	}
	from = max(slices.IndexFunc(list, func(c cell) bool { return c.marked }), 0)
	to = from
	room := width - 2 // an ellipsis on each side
	grow := func(spare int) {
		for to < len(list) && list[to].width <= room-spare {
			room -= list[to].width
			to++
		}
	}
	grow(room / 3)
	for from > 0 && list[from-1].width <= room {
		from--
		room -= list[from].width
	}
	grow(0)
	return from, to
}

// show writes a piece as one line no wider than width, and a line of marks to
// stand below it. Where nothing is marked, the character behind is, or the
// line's end.
func (p piece) show(width int) (line, marks string) {
	if p.marked == "" {
		p.marked, p.after, _, _ = uniseg.FirstGraphemeClusterInString(p.after, -1)
	}
	if p.marked == "" {
		p.marked = " "
	}
	list := p.cells()
	from, to := window(list, width)
	var text, below strings.Builder
	if from > 0 {
		text.WriteString("…")
		below.WriteString(" ")
	}
	for _, c := range list[from:to] {
		text.WriteString(c.text)
		sign := " "
		if c.marked {
			sign = "^"
		}
		below.WriteString(strings.Repeat(sign, c.width))
	}
	if to < len(list) {
		text.WriteString("…")
	}
	return strings.TrimRight(text.String(), " "), strings.TrimRight(below.String(), " ")
}
