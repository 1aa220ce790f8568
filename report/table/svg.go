package table

import (
	"bytes"
	_ "embed"
	"errors"
	"fmt"
	"html"
	"io"
	"strconv"
	"strings"

	"golang.org/x/text/language"
)

var (
	//go:embed colours.css
	coloursCSS string
	//go:embed plot.css
	plotCSS string
)

// Sizes of a drawing in its own units. They are chosen so that its letters can
// be read when the whole drawing is as wide as a telephone.
const (
	plotWidth  = 360.0
	plotMargin = 10.0
	lineHeight = 17.0
	cellWidth  = 6.6 // about what one cell of text takes
)

// WriteSVG writes one plot as a file of its own, with its title, a description
// for those who can't see it, and colours for light and dark surroundings.
func WriteSVG(w io.Writer, p Plot, tag language.Tag) error {
	c := checker{where: "plot"}
	c.notes = map[string]string{}
	c.plot(p)
	if len(c.faults) > 0 {
		return errors.Join(c.faults...)
	}
	_, err := io.WriteString(w, drawing{numerals: newNumerals(tag), id: "plot", alone: true}.svg(p)+"\n")
	return err
}

// A drawing is an SVG picture under construction, from the top down.
type drawing struct {
	numerals
	id    string // of the picture, for its title and description
	alone bool   // a file of its own, and not part of a page
	out   *bytes.Buffer
	y     float64 // how far down the picture reaches
	wide  float64 // how far to the right; zero means plotWidth, to be scaled as there is room
}

// svg draws the plot.
func (d drawing) svg(p Plot) string {
	d.out = &bytes.Buffer{}
	title, desc := p.caption()
	if d.alone {
		d.words(title, 0, plotWidth, "name")
		d.y += lineHeight / 2
	}
	switch p := p.(type) {
	case Curve:
		d.curve(p)
	case Dots:
		d.dots(p)
	case Chart:
		d.chart(p)
	case Tornado:
		d.tornado(p)
	case Bars:
		d.bars(p)
	case Graph:
		d.graph(p)
	case Labels:
		d.labels(p)
	}
	var head drawing
	head.out = &bytes.Buffer{}
	head.openRoot(d, title, desc)
	return head.out.String() + d.out.String() + "</svg>"
}

// openRoot writes what stands before the picture, which is known to be d.y high.
func (d *drawing) openRoot(of drawing, title, desc string) {
	width, height := max(of.wide, plotWidth)+2*plotMargin, of.y+2*plotMargin
	var size []string
	if of.wide > 0 { // drawn as large as it is
		size = []string{"width", figure(width), "height", figure(height)}
	}
	d.open("svg", append(size, "class", "plot", "xmlns", "http://www.w3.org/2000/svg", "role", "img",
		"aria-labelledby", of.id+"-title "+of.id+"-desc",
		"viewBox", fmt.Sprintf("%s %s %s %s", figure(-plotMargin), figure(-plotMargin), figure(width), figure(height)))...)
	d.element("title", title, "id", of.id+"-title")
	d.element("desc", desc, "id", of.id+"-desc")
	if of.alone {
		d.element("style", coloursCSS+plotCSS)
		d.element("rect", "", "class", "paper", "fill", "none", "x", figure(-plotMargin), "y", figure(-plotMargin), "width", figure(width), "height", figure(height))
	}
}

// open writes the start of an element; attributes are names and values by turns,
// and those without a value are left out.
func (d *drawing) open(name string, attributes ...string) {
	d.out.WriteString("<" + name)
	for i := 0; i+1 < len(attributes); i += 2 {
		if attributes[i+1] == "" {
			continue
		}
		d.out.WriteString(" " + attributes[i] + `="` + escaped(attributes[i+1]) + `"`)
	}
	d.out.WriteByte('>')
}

// element writes a whole element with text in it.
func (d *drawing) element(name, text string, attributes ...string) {
	d.open(name, attributes...)
	d.out.WriteString(escaped(text) + "</" + name + ">\n")
}

// escaped makes text safe inside an element and inside an attribute. Line ends
// are kept, which only the style sheet has.
func escaped(s string) string {
	lines := strings.Split(s, "\n")
	for i, line := range lines {
		lines[i] = html.EscapeString(visible(line))
	}
	return strings.Join(lines, "\n")
}

// figure writes a coordinate, to a tenth, which is finer than a screen.
func figure(x float64) string {
	return strings.TrimSuffix(strconv.FormatFloat(x, 'f', 1, 64), ".0")
}

// text writes one line of words with its foot at y.
func (d *drawing) text(words string, x, y float64, anchor, class string) {
	d.element("text", words, "class", class, "x", figure(x), "y", figure(y), "text-anchor", anchor)
}

// words writes wrapped words from the left and moves below them.
func (d *drawing) words(s string, x, room float64, class string) {
	d.lines(wrap(visible(s), int(room/cellWidth)), x, class)
}

// lines writes lines from the left and moves below them.
func (d *drawing) lines(lines []string, x float64, class string) {
	for _, line := range lines {
		d.y += lineHeight
		d.text(line, x, d.y-4, "start", class)
	}
}

// stroke writes a straight line.
func (d *drawing) stroke(x1, y1, x2, y2 float64, class string) {
	d.element("line", "", "class", class, "stroke", "currentColor", "x1", figure(x1), "y1", figure(y1), "x2", figure(x2), "y2", figure(y2))
}

// series returns the number of the colour of line i.
func series(i int) string { return strconv.Itoa(i % seriesColours) }

const seriesColours = 8 // that plot.css has
