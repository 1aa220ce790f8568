package table

import "math"

// rowOf is one line of a picture made of rows: words at the left, figures at the
// right, and below them something drawn across the whole width. So long names
// need no margin of their own, and the picture reads well when it is small.
type rowOf struct {
	label, figures string
	draw           func(y float64)
}

const (
	drawnHeight = 20.0 // of what is drawn below the words
	tickLength  = 4.0
)

// rows draws the rows with the scale below them.
func (d *drawing) rows(s scale, axis string, rows []rowOf) {
	for _, r := range rows {
		d.y += 4
		first := d.y
		room := plotWidth - cellWidth*float64(width(r.figures)+columnGap)
		d.words(r.label, 0, max(room, plotWidth/3), "")
		d.text(r.figures, plotWidth, first+lineHeight-4, "end", "")
		if !math.IsNaN(s.reference) { // not through the words
			x := plotWidth * s.at(s.reference)
			d.stroke(x, d.y, x, d.y+drawnHeight, "reference")
		}
		r.draw(d.y + drawnHeight/2)
		d.y += drawnHeight
	}
	d.stroke(0, d.y, plotWidth, d.y, "axis")
	d.ticks(s, 0, plotWidth)
	d.axisName(axis, 0)
}

// ticks labels a scale that lies from left to right at the foot of the picture.
func (d *drawing) ticks(s scale, left, right float64) {
	ticks := s.ticks()
	for _, tick := range ticks {
		at := s.at(tick)
		x := left + (right-left)*at
		d.stroke(x, d.y, x, d.y+tickLength, "axis")
		anchor := "middle"
		switch {
		case at < 0.02:
			anchor = "start"
		case at > 0.98:
			anchor = "end"
		}
		d.text(d.tick(s, tick), x, d.y+lineHeight, anchor, "soft")
	}
	d.y += lineHeight + tickLength
}

// axisName says what runs along the foot of the picture.
func (d *drawing) axisName(words string, left float64) {
	if words != "" {
		d.words(words, left, plotWidth-left, "soft")
	}
}

// dots draws an interval plot.
func (d *drawing) dots(p Dots) {
	s, l := p.scale(), p.look()
	x := func(v float64) float64 { return plotWidth * s.at(v) }
	var rows []rowOf
	for _, row := range p.Rows {
		sp := spanOf(row.Low, row.Point, row.High)
		figures := d.write(row.Point, l)
		if row.Low.Known() || row.High.Known() {
			figures += "  (" + d.interval(row.Low, row.High, l) + ")"
		}
		rows = append(rows, rowOf{row.Label, figures, func(y float64) { d.span(s, sp, x, y) }})
	}
	d.rows(s, p.Axis, rows)
}

// span draws an interval and its middle at height y. An end outside the scale
// has no stop: the line runs out of the picture.
func (d *drawing) span(s scale, sp span, x func(float64) float64, y float64) {
	if !math.IsNaN(sp.low) && !math.IsNaN(sp.high) {
		d.stroke(x(sp.low), y, x(sp.high), y, "line s0")
	}
	for _, end := range []float64{sp.low, sp.high} {
		if end >= s.low && end <= s.high {
			d.stroke(x(end), y-4, x(end), y+4, "line s0")
		}
	}
	if !math.IsNaN(sp.point) {
		d.disc(x(sp.point), y, 4.5, "mark f0")
	}
}

// tornado draws the swing of every assumption around the base.
func (d *drawing) tornado(p Tornado) {
	s, l := p.scale(), p.look()
	base := plotWidth * s.at(p.Base.position())
	var rows []rowOf
	for _, swing := range p.Swings {
		rows = append(rows, rowOf{swing.label(), d.write(swing.Low, l) + " … " + d.write(swing.High, l), func(y float64) {
			for i, end := range []Cell{swing.Low, swing.High} {
				if v := end.position(); !math.IsNaN(v) {
					x := plotWidth * s.at(v)
					d.box(min(x, base), y-5, math.Abs(x-base), 10, "mark f"+series(1-i)) // what makes it worse stands first, and in the warmer colour
				}
			}
		}})
	}
	d.rows(s, axis(p.Axis, plotCells(p)), rows)
}

// bars draws amounts by length.
func (d *drawing) bars(p Bars) {
	s, l := p.scale(), lookOf(plotCells(p))
	l.code = false
	zero := plotWidth * s.at(0)
	var rows []rowOf
	for _, bar := range p.Rows {
		rows = append(rows, rowOf{bar.Label, d.write(bar.Value, l), func(y float64) {
			if v := bar.Value.position(); !math.IsNaN(v) {
				d.box(zero, y-5, plotWidth*s.at(v)-zero, 10, "mark f0")
			}
		}})
	}
	d.rows(s, axis(p.Axis, plotCells(p)), rows)
}

func (d *drawing) disc(x, y, radius float64, class string) {
	d.element("circle", "", "class", class, "cx", figure(x), "cy", figure(y), "r", figure(radius))
}

func (d *drawing) box(x, y, wide, high float64, class string) {
	d.element("rect", "", "class", class, "fill-opacity", "0.85", "x", figure(x), "y", figure(y), "width", figure(max(wide, 0)), "height", figure(high))
}
