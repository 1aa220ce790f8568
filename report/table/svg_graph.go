package table

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/budstick/budstick/report/graph"
)

// How boxes of a graph are made, in the drawing's units and in cells of text.
const (
	boxLabel, boxDetail = 22, 26 // cells in a line
	boxLines            = 3      // of detail, at most
	boxLine             = 14.0
	boxInset            = 7.0
	boldWider           = 1.22 // and larger than the letters of a detail
)

// inkWidth is about how wide a line is in the letters of a drawing, for a box
// that it must not stick out of: rather too much, since fonts differ.
func inkWidth(line string) float64 {
	sum := 0.0
	for _, r := range line {
		switch {
		case strings.ContainsRune(" ,.:;'|/-()iljftr", r):
			sum += 4.5
		case strings.ContainsRune("mwMW@%…", r):
			sum += 11.8
		case r >= 'A' && r <= 'Z':
			sum += 8.8
		default:
			sum += 7.4 * float64(width(string(r)))
		}
	}
	return sum
}

// wrapInk breaks a line so that none is wider in the letters of a drawing than there
// is room for, which are so much wider than plain ones.
func wrapInk(s string, room, wider float64) []string {
	for cells := int(room / wider / cellWidth); ; cells-- {
		lines := wrap(s, cells)
		if cells <= 1 || !slices.ContainsFunc(lines, func(line string) bool { return wider*inkWidth(line) > room }) {
			return lines
		}
	}
}

// A card is the words of a node, cut into lines, and the room they take.
type card struct {
	label, detail []string
	size          graph.Node
}

func cardOf(n Node) card {
	c := card{label: wrap(visible(n.Label), boxLabel)}
	if n.Detail != "" {
		c.detail = wrap(visible(n.Detail), boxDetail)
	}
	if len(c.detail) > boxLines {
		c.detail = c.detail[:boxLines]
		c.detail[boxLines-1] = strings.TrimRight(c.detail[boxLines-1], ", ") + " …"
	}
	wide := 0.0
	for _, line := range c.label {
		wide = max(wide, boldWider*inkWidth(line))
	}
	for _, line := range c.detail {
		wide = max(wide, inkWidth(line))
	}
	c.size = graph.Node{Width: wide + 2*boxInset, Height: boxLine*float64(len(c.label)+len(c.detail)) + 1.5*boxInset}
	return c
}

// graph draws what came from what.
func (d *drawing) graph(p Graph) {
	cards := make([]card, len(p.Nodes))
	sizes := make([]graph.Node, len(p.Nodes))
	for i, n := range p.Nodes {
		cards[i] = cardOf(n)
		sizes[i] = cards[i].size
	}
	edges := make([]graph.Edge, len(p.Edges))
	for i, e := range p.Edges {
		edges[i] = graph.Edge{From: e.From, To: e.To}
	}
	l := graph.Lay(sizes, edges, graph.Gaps{Layer: 54, Node: 9})
	top := d.y
	used := make([]bool, len(p.Lines))
	for i, e := range p.Edges {
		used[e.Line] = true
		d.step(l.Edges[i], top, e.Line)
	}
	for i, n := range p.Nodes {
		d.card(cards[i], n, l.Nodes[i], top)
	}
	d.wide = max(l.Width, plotWidth)
	d.y += l.Height + lineHeight/2
	for i, name := range p.Lines {
		if used[i] {
			d.key(i, name)
		}
	}
}

// card draws a box with its words.
func (d *drawing) card(c card, n Node, at graph.Point, top float64) {
	class := "card"
	switch {
	case n.Focus:
		class += " focus"
	case n.Outside:
		class += " outside"
	}
	left, y := at.X-c.size.Width/2, top+at.Y-c.size.Height/2
	d.element("rect", "", "class", class, "rx", "4", "fill", "none", "stroke", "currentColor", "x", figure(left), "y", figure(y),
		"width", figure(c.size.Width), "height", figure(c.size.Height))
	y += boxInset / 2
	for _, line := range c.label {
		y += boxLine
		d.text(line, left+boxInset, y-2, "start", "strong")
	}
	for _, line := range c.detail {
		y += boxLine
		d.text(line, left+boxInset, y-2, "start", "soft")
	}
}

// step draws a line through places: level within layers and curved between them,
// with a head at its end.
func (d *drawing) step(points []graph.Point, top float64, kind int) {
	if len(points) == 0 {
		return
	}
	var path strings.Builder
	fmt.Fprintf(&path, "M%s %s", figure(points[0].X), figure(top+points[0].Y))
	for i := 1; i < len(points); i++ {
		from, to := points[i-1], points[i]
		if i%2 == 1 {
			if figure(to.X) != figure(from.X) {
				fmt.Fprintf(&path, "H%s", figure(to.X))
			}
			continue
		}
		middle := (from.X + to.X) / 2
		fmt.Fprintf(&path, "C%s %s %s %s %s %s", figure(middle), figure(top+from.Y), figure(middle), figure(top+to.Y), figure(to.X), figure(top+to.Y))
	}
	d.element("path", "", "class", "step s"+series(kind), "fill", "none", "stroke", "currentColor", "stroke-dasharray", dashes(kind), "d", path.String())
	last := points[len(points)-1]
	back := -math.Copysign(6, last.X-points[0].X)
	d.element("path", "", "class", "mark f"+series(kind), "d",
		fmt.Sprintf("M%s %sl%s -3.5v7z", figure(last.X), figure(top+last.Y), figure(back)))
}
