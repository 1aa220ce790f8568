package render

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"github.com/fatih/color"

	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/screen"
	"github.com/budstick/budstick/grammar/source"
)

// indent stands before every line that is quoted from a journal.
const indent = "    "

// longest is how many bytes of a message are shown: more than any message needs
// that does not quote an endless line.
const longest = 600

// palette colours the parts of a finding. Nothing is told by colour alone.
type palette struct {
	place, quiet, mend *color.Color
	severity           map[finding.Severity]*color.Color
}

func newPalette(on bool) palette {
	paint := func(attributes ...color.Attribute) *color.Color {
		c := color.New(attributes...)
		if on {
			c.EnableColor()
		} else {
			c.DisableColor()
		}
		return c
	}
	return palette{
		place: paint(color.Bold),
		quiet: paint(color.Faint),
		mend:  paint(color.FgGreen),
		severity: map[finding.Severity]*color.Color{
			finding.Error:   paint(color.FgRed, color.Bold),
			finding.Warning: paint(color.FgYellow),
			finding.Hint:    paint(color.FgCyan),
		},
	}
}

// textWriter writes findings for people.
type textWriter struct {
	*bufio.Writer
	palette
	width int // of what is quoted
}

func writeText(w io.Writer, r Result, o Options) error {
	width := o.Width
	if width == 0 {
		width = 80
	}
	t := textWriter{bufio.NewWriterSize(w, 1<<16), newPalette(o.Colour), max(width, 40) - len(indent)}
	between := ""
	for f := range r.placed() {
		t.WriteString(between)
		between = "\n"
		t.finding(f)
	}
	return t.Flush()
}

// finding writes one finding: its head, its line, the places that help to
// understand it, and what to write instead.
func (t *textWriter) finding(f placed) {
	hue := t.severity[f.Severity]
	fmt.Fprintf(t, "%s %s %s %s\n",
		t.place.Sprintf("%s:%d:%d:", screen.Visible(f.File.Path), f.start.Line, f.start.Column),
		hue.Sprint(f.Severity.String()+":"),
		message(f.Message), t.quiet.Sprint("["+f.Rule+"]"))
	t.quote(pieceOf(f.File, f.Span), hue)
	for _, r := range f.Related {
		pos := r.File.Position(r.Span.Start)
		fmt.Fprintf(t, "  see %s %s\n", t.place.Sprintf("%s:%d:%d:", screen.Visible(r.File.Path), pos.Line, pos.Column), message(r.Message))
		t.quote(pieceOf(r.File, r.Span), t.quiet)
	}
	if f.Mend != nil {
		t.writeInstead(t.mended(f.File, *f.Mend))
	}
}

// writeInstead writes the lines that a mend makes.
func (t *textWriter) writeInstead(lines []string) {
	if len(lines) == 0 {
		t.WriteString("  take this line out\n")
		return
	}
	t.WriteString("  write instead:\n")
	for _, line := range lines {
		fmt.Fprintf(t, "%s%s\n", indent, t.mend.Sprint(line))
	}
}

// quote writes a line of a journal with marks below it.
func (t *textWriter) quote(p piece, hue *color.Color) {
	line, marks := p.show(t.width)
	blanks := len(marks) - len(strings.TrimLeft(marks, " "))
	fmt.Fprintf(t, "%s%s\n%s%s%s\n", indent, line, indent, marks[:blanks], hue.Sprint(marks[blanks:]))
}

// mended is the lines that a mend touches, as they read with it; none where
// nothing of them is left.
func (t *textWriter) mended(file *source.File, m finding.Mend) []string {
	p := pieceOf(file, source.Span{Start: m.Span.Start, End: m.Span.Start})
	rest := pieceOf(file, source.Span{Start: m.Span.End, End: m.Span.End})
	p.marked, p.after = m.Text, rest.after
	if strings.TrimSpace(p.before+p.marked+p.after) == "" {
		return nil
	}
	if strings.Contains(p.marked, "\n") {
		var lines []string
		for line := range strings.SplitSeq(p.before+p.marked+p.after, "\n") {
			shown, _ := piece{after: line}.show(t.width)
			lines = append(lines, shown)
		}
		return lines
	}
	shown, _ := p.show(t.width)
	return []string{shown}
}

// message makes a message fit for a terminal.
func message(s string) string {
	if len(s) > longest {
		s = cut(s, longest) + "…"
	}
	return screen.Visible(s)
}
