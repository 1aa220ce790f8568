package table

import (
	"fmt"
	"math"
	"strings"
)

// plot draws a plot with the signs of a terminal.
func (t *textWriter) plot(p Plot) {
	title, desc := p.caption()
	t.title(title)
	switch p := p.(type) {
	case Curve:
		t.curve(p)
	case Dots:
		t.sheet(p.sheet(t.numerals))
	case Chart:
		t.chart(p)
	case Tornado:
		t.tornado(p)
	case Bars:
		t.bars(p)
	}
	t.paragraph("", visible(desc), t.style.Dim)
}

// strips writes rows of a label, figures and a drawing as wide as there is room,
// with axis named above the drawing.
func (t *textWriter) strips(labels, figures []string, heading func(cells int) string, draw func(row, cells int) string) {
	label, figure := 0, 0
	for i := range labels {
		label, figure = max(label, width(labels[i])), max(figure, width(figures[i]))
	}
	label = min(label, max(t.width/3, poorColumn))
	cells := t.width - label - figure - 2*columnGap
	if cells < thinStrip {
		for i := range labels {
			t.hanging(labels[i]+": ", figures[i])
		}
		return
	}
	cells = min(cells, 2*wideStrip-1)
	if h := heading(cells); h != "" {
		t.line(strings.Repeat(" ", label+figure+2*columnGap) + styled(t.style.Dim, h))
	}
	for i := range labels {
		lines := wrap(labels[i], label)
		t.line(strings.TrimRight(pad(lines[0], label+columnGap, false)+pad(figures[i], figure, true)+"  "+draw(i, cells), " "))
		for _, line := range lines[1:] {
			t.line(line)
		}
	}
}

// dotScale chooses the scale of an interval plot.
func (p Dots) scale() scale {
	var numbers []float64
	kind := KindNumber
	for _, row := range p.Rows {
		for _, c := range []Cell{row.Low, row.Point, row.High} {
			numbers = append(numbers, c.position())
		}
		if row.Point.Known() {
			kind = row.Point.kind
		}
	}
	numbers = append(numbers, p.Reference.position())
	var s scale
	switch {
	case p.Log:
		s = logScale(numbers)
	case kind == KindRate:
		s = scale{low: 0, high: 1, kind: KindRate}
	default:
		s = niceScale(numbers, kind, false)
	}
	s.reference = p.Reference.position()
	return s
}

// sheet makes a table of the dots: the figures, and the intervals drawn.
func (p Dots) sheet(n numerals) sheet {
	s := sheet{columns: []sheetColumn{{kind: KindText, group: true}, {heading: visible(p.Axis), kind: KindNumber}, {heading: "interval", kind: KindNumber}, {}}}
	sc := p.scale()
	s.columns[3].scale = &sc
	s.columns[3].spare = 1
	l := p.look()
	for _, row := range p.Rows {
		s.rows = append(s.rows, []shown{
			{text: visible(row.Label)},
			{text: n.write(row.Point, l), signs: s.footnotes.sign(row.Point.marks)},
			{text: n.interval(row.Low, row.High, l), signs: s.footnotes.sign(append(row.Low.Marks(), row.High.marks...))},
			{span: spanOf(row.Low, row.Point, row.High)},
		})
	}
	return s
}

func (p Dots) look() look {
	var cells []Cell
	for _, row := range p.Rows {
		cells = append(cells, row.Low, row.Point, row.High)
	}
	return lookOf(cells)
}

// scale reaches from nothing up to the highest share or limit.
func (p Chart) scale() scale {
	numbers := []float64{p.Centre}
	for _, s := range p.Points {
		numbers = append(numbers, s.Share, s.Lower, s.Upper)
	}
	s := niceScale(numbers, KindRate, true)
	s.high = min(s.high, 1)
	s.reference = p.Centre
	return s
}

func (t *textWriter) chart(p Chart) {
	sc := p.scale()
	var labels, figures []string
	signals := false
	for _, point := range p.Points {
		labels = append(labels, visible(point.Label))
		figure := t.percent(t.share(point.Share)) + "  "
		if point.Signal {
			signals = true
			figure = strings.TrimRight(figure, " ") + " !"
		}
		figures = append(figures, figure)
	}
	t.strips(labels, figures,
		func(cells int) string { return t.stripHeading(sc, cells) },
		func(row, cells int) string {
			point := p.Points[row]
			return sc.strip(span{point.Lower, point.Share, point.Upper}, cells, limitStrokes)
		})
	key := fmt.Sprintf("%c is the share, %c the middle, %c %c the limits.", limitStrokes.point, limitStrokes.reference, limitStrokes.from, limitStrokes.to)
	if signals {
		key += " ! marks what chance alone would seldom give."
	}
	t.paragraph("", key, t.style.Dim)
}

// scale holds every end of every swing.
func (p Tornado) scale() scale {
	numbers := []float64{p.Base.position()}
	for _, s := range p.Swings {
		numbers = append(numbers, s.Low.position(), s.High.position())
	}
	s := niceScale(numbers, p.Base.kind, false)
	s.reference = p.Base.position()
	return s
}

// look finds one way to write all the amounts of the plot.
func (p Tornado) look() look {
	l := lookOf(plotCells(p))
	l.code = false
	return l
}

// axis names the axis and the currency of what lies along it.
func axis(words string, cells []Cell) string {
	return titled(words, "", strings.Join(currencies(cells), ", "))
}

func (t *textWriter) tornado(p Tornado) {
	sc, l := p.scale(), p.look()
	t.paragraph("", axis(p.Axis, plotCells(p))+": "+t.write(p.Base, l)+", and when one thing changes:", nil)
	var labels, figures []string
	for _, s := range p.Swings {
		labels = append(labels, visible(s.label()))
		figures = append(figures, t.write(s.Low, l)+" … "+t.write(s.High, l))
	}
	t.strips(labels, figures,
		func(cells int) string { return t.stripHeading(sc, cells) },
		func(row, cells int) string {
			low, high := p.Swings[row].Low.position(), p.Swings[row].High.position()
			return sc.strip(span{min(low, high), math.NaN(), max(low, high)}, cells, swingStrokes)
		})
}

// label names the assumption with its two ends.
func (s Swing) label() string {
	if s.LowAt == "" && s.HighAt == "" {
		return s.Label
	}
	return s.Label + " (" + s.LowAt + " … " + s.HighAt + ")"
}

func (p Bars) scale() scale {
	var numbers []float64
	kind := KindNumber
	for _, bar := range p.Rows {
		numbers = append(numbers, bar.Value.position())
		if bar.Value.Known() {
			kind = bar.Value.kind
		}
	}
	return niceScale(numbers, kind, true)
}

func (t *textWriter) bars(p Bars) {
	sc, l := p.scale(), lookOf(plotCells(p))
	l.code = false
	if p.Axis != "" {
		t.paragraph("", axis(p.Axis, plotCells(p)), nil)
	}
	var labels, figures []string
	for _, bar := range p.Rows {
		labels = append(labels, visible(bar.Label))
		figures = append(figures, t.write(bar.Value, l))
	}
	t.strips(labels, figures,
		func(int) string { return "" },
		func(row, cells int) string { return sc.block(p.Rows[row].Value.position(), cells) })
}
