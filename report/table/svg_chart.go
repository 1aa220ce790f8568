package table

import (
	"fmt"
	"math"
	"strings"
)

const chartLabels = 4 // that have room below a chart

// chart draws shares in time between the limits that each one has.
func (d *drawing) chart(p Chart) {
	across := scale{low: -0.5, high: float64(len(p.Points)) - 0.5}
	f := d.frame(across, p.scale())
	d.stroke(f.left, f.up(p.Centre), f.right, f.up(p.Centre), "reference")
	for _, limit := range []func(Sample) float64{
		func(s Sample) float64 { return s.Lower },
		func(s Sample) float64 { return s.Upper },
	} {
		d.element("path", "", "class", "limit", "fill", "none", "stroke", "currentColor", "d", p.steps(f, limit))
	}
	var trace strings.Builder
	for i, s := range p.Points {
		fmt.Fprintf(&trace, "%c%s %s", "ML"[min(i, 1)], figure(f.across(float64(i))), figure(f.up(s.Share)))
	}
	if trace.Len() > 0 {
		d.element("path", "", "class", "line s0", "fill", "none", "stroke", "currentColor", "d", trace.String())
	}
	signals := false
	for i, s := range p.Points {
		x, y := f.across(float64(i)), f.up(s.Share)
		if s.Signal {
			signals = true
			d.diamond(x, y)
		} else {
			d.disc(x, y, 4, "mark f0")
		}
	}
	d.chartLabels(p, f)
	d.axisName(p.Axis, f.left)
	d.axisName("Dashed: the limits of chance. Dotted: the middle.", f.left)
	if signals {
		y := d.y + lineHeight - 8
		d.diamond(f.left+6, y)
		d.words("more than chance alone would give", f.left+20, plotWidth-f.left-20, "soft")
	}
}

// steps runs along a limit, level over the room of each point.
func (p Chart) steps(f frame, limit func(Sample) float64) string {
	var b strings.Builder
	for i, s := range p.Points {
		fmt.Fprintf(&b, "%c%s %sH%s", "ML"[min(i, 1)], figure(f.across(float64(i)-0.5)), figure(f.up(limit(s))), figure(f.across(float64(i)+0.5)))
	}
	return b.String()
}

// chartLabels names the first and the last point and some between them.
func (d *drawing) chartLabels(p Chart, f frame) {
	every := max(1, int(math.Ceil(float64(len(p.Points))/chartLabels)))
	for i := 0; i < len(p.Points); i += every {
		x := f.across(float64(i))
		d.stroke(x, f.bottom, x, f.bottom+tickLength, "axis")
		anchor := "middle"
		if i == len(p.Points)-1 && len(p.Points) > 1 {
			anchor = "end"
		}
		d.text(p.Points[i].Label, x, f.bottom+lineHeight, anchor, "soft")
	}
	d.y += lineHeight + tickLength
}

// diamond marks a point by its shape too, and not by colour alone.
func (d *drawing) diamond(x, y float64) {
	const reach = 6.0
	d.element("path", "", "class", "signal", "fill", "none", "stroke", "currentColor",
		"d", fmt.Sprintf("M%s %sl%[3]s %[3]sl-%[3]s %[3]sl-%[3]s -%[3]sz", figure(x), figure(y-reach), figure(reach)))
}
