package table

import (
	"fmt"
	"math"
	"strings"
)

// A frame is the part of a picture that holds a graph with two scales.
type frame struct {
	x, y                     scale
	left, top, right, bottom float64
}

const (
	frameHeight = 210.0
	frameLeft   = 38.0 // room for the labels of the upright scale
	keyLength   = 26.0
)

func (f frame) across(x float64) float64 { return f.left + (f.right-f.left)*f.x.at(x) }
func (f frame) up(y float64) float64     { return f.bottom - (f.bottom-f.top)*f.y.at(y) }

// frame draws the scales of a graph of shares and moves below them. Labels of
// the lower scale are left to the caller when across has no kind.
func (d *drawing) frame(across, shares scale) frame {
	f := frame{x: across, y: shares, left: frameLeft, top: d.y + 6, right: plotWidth, bottom: d.y + 6 + frameHeight}
	for _, tick := range shares.ticks() {
		y := f.up(tick)
		d.stroke(f.left, y, f.right, y, "grid")
		d.text(d.tick(shares, tick), f.left-6, y+4, "end", "soft")
	}
	d.stroke(f.left, f.bottom, f.right, f.bottom, "axis")
	d.y = f.bottom
	return f
}

// curve draws falling shares in steps, with their bands.
func (d *drawing) curve(p Curve) {
	f := d.frame(scale{low: 0, high: p.end(), kind: KindCount}, scale{low: 0, high: 1, kind: KindRate})
	for i, line := range p.Lines {
		if band := line.band(f); band != "" {
			d.element("path", "", "class", "band f"+series(i), "fill", "none", "d", band)
		}
	}
	for i, line := range p.Lines {
		d.element("path", "", "class", "line s"+series(i), "fill", "none", "stroke", "currentColor", "stroke-dasharray", dashes(i), "d", line.path(f))
	}
	d.ticks(f.x, f.left, f.right)
	d.axisName(p.Axis, f.left)
	for i, line := range p.Lines {
		if len(p.Lines) > 1 || line.Name != "" {
			d.key(i, line.Name)
		}
	}
}

// key names a line beside a piece of it.
func (d *drawing) key(i int, name string) {
	y := d.y + lineHeight - 8
	d.element("path", "", "class", "line s"+series(i), "fill", "none", "stroke", "currentColor", "stroke-dasharray", dashes(i),
		"d", fmt.Sprintf("M%s %sh%s", figure(frameLeft), figure(y), figure(keyLength)))
	d.words(name, frameLeft+keyLength+8, plotWidth-frameLeft-keyLength-8, "")
}

// dashes tells lines apart where colour can't.
func dashes(i int) string {
	return []string{"none", "7 3", "2 3", "9 3 2 3", "4 2", "12 4", "14 3 5 3", "1 2"}[i%seriesColours]
}

// path runs along the steps to the end of the line.
func (l Line) path(f frame) string {
	var b strings.Builder
	fmt.Fprintf(&b, "M%s %s", figure(f.across(0)), figure(f.up(l.at(0))))
	for _, s := range l.Steps {
		fmt.Fprintf(&b, "H%sV%s", figure(f.across(s.At)), figure(f.up(s.Share)))
	}
	fmt.Fprintf(&b, "H%s", figure(f.across(l.last())))
	return b.String()
}

// band goes out along the upper ends of the intervals and back along the lower
// ones. Steps without an interval are left out; "" means that none has one.
func (l Line) band(f frame) string {
	var upper, lower strings.Builder
	var back []string
	for i, s := range l.Steps {
		if math.IsNaN(s.Low) || math.IsNaN(s.High) {
			continue
		}
		until := l.last()
		if i+1 < len(l.Steps) {
			until = l.Steps[i+1].At
		}
		from, to := figure(f.across(s.At)), figure(f.across(until))
		fmt.Fprintf(&upper, "L%s %sH%s", from, figure(f.up(s.High)), to)
		back = append(back, fmt.Sprintf("L%s %sH%s", to, figure(f.up(s.Low)), from))
	}
	for i := len(back) - 1; i >= 0; i-- {
		lower.WriteString(back[i])
	}
	if upper.Len() == 0 {
		return ""
	}
	return "M" + strings.TrimPrefix(upper.String(), "L") + lower.String() + "Z"
}
