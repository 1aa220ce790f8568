package table

import (
	"bytes"
	"io"
	"slices"
	"strings"

	"golang.org/x/text/language"
)

// TextOptions say how text is laid out.
type TextOptions struct {
	Width    int          // in cells of the terminal; zero means 80, less than 20 is taken as 20
	Language language.Tag // of the numbers; the zero value writes 1,234.5
	Style    Style
}

// A Style colours pieces of text. Its functions may only add what takes no room
// on the screen; nil ones leave the text alone. Nothing is told by style alone.
type Style struct {
	Heading, Strong, Dim, Warn func(string) string
}

// WriteText writes the report for a terminal or a plain page. No line is wider
// than the width: text is wrapped, columns that matter less are left out and
// named below the table, and where even that does not help each row becomes a
// list.
func WriteText(w io.Writer, d Doc, o TextOptions) error {
	if err := d.Check(); err != nil {
		return err
	}
	if o.Width == 0 {
		o.Width = 80
	}
	t := textWriter{width: max(o.Width, 20), numerals: newNumerals(o.Language), style: o.Style}
	t.doc(d)
	_, err := w.Write(t.Bytes())
	return err
}

type textWriter struct {
	bytes.Buffer
	numerals
	width int
	style Style
}

// styled applies f, or nothing where the style has none.
func styled(f func(string) string, s string) string {
	if f == nil || s == "" {
		return s
	}
	return f(s)
}

// line writes a line that is known to fit.
func (t *textWriter) line(s string) {
	t.WriteString(s + "\n")
}

// gap writes an empty line between two things.
func (t *textWriter) gap() {
	if t.Len() > 0 && !bytes.HasSuffix(t.Bytes(), []byte("\n\n")) {
		t.WriteByte('\n')
	}
}

// paragraph writes wrapped text: the first line after lead, the others below it.
func (t *textWriter) paragraph(lead, text string, style func(string) string) {
	for i, line := range wrap(text, t.width-width(lead)) {
		if i == 1 {
			lead = strings.Repeat(" ", width(lead))
		}
		t.line(styled(style, strings.TrimRight(lead+line, " ")))
	}
}

func (t *textWriter) doc(d Doc) {
	t.paragraph("", visible(d.Title), t.style.Heading)
	for _, s := range d.preamble() {
		t.paragraph("", s, t.style.Dim)
	}
	if len(d.Cautions) > 0 {
		t.gap()
	}
	for _, s := range d.Cautions {
		t.paragraph("! ", visible(s), t.style.Warn)
	}
	for _, b := range d.Body {
		if wide(b) || unseen(b) {
			continue
		}
		t.gap()
		switch b := b.(type) {
		case Table:
			t.table(b)
		case Facts:
			t.facts(b)
		case Outline:
			t.outline(b)
		case Plot:
			t.plot(b)
		}
	}
	if d.Bound {
		t.notes(append(slices.Clone(d.Notes), contents(d.Chapters)))
		return
	}
	for _, chapter := range d.Chapters {
		t.gap()
		t.line(styled(t.style.Dim, strings.Repeat("═", t.width)))
		t.doc(chapter)
	}
	t.notes(d.Notes)
}

// contents names the chapters that text leaves to the page.
func contents(chapters []Doc) string {
	titles := make([]string, len(chapters))
	for i, c := range chapters {
		titles[i] = c.Title
	}
	return "Written as HTML it has these chapters besides: " + strings.Join(titles, "; ") + "."
}

func (t *textWriter) notes(notes []string) {
	if len(notes) > 0 {
		t.gap()
	}
	for _, s := range notes {
		t.paragraph("– ", visible(s), t.style.Dim)
	}
}

func (t *textWriter) title(s string) {
	if s != "" {
		t.paragraph("", visible(s), t.style.Strong)
	}
}

func (t *textWriter) table(tab Table) {
	t.title(tab.Title)
	t.sheet(tab.sheet(t.numerals))
	t.notes(tab.Notes)
}
