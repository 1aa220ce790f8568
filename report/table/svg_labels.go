package table

import (
	"fmt"
	"strings"

	"github.com/boombuler/barcode"
	"github.com/boombuler/barcode/qr"
)

// Labels on a sheet stand in two columns. Sizes are in the drawing's units; at
// their natural size the labels of a sheet fit a page of A4.
const (
	labelColumns = 2
	labelRows    = 7
	labelWide    = 280.0
	labelHigh    = 104.0
	labelInset   = 9.0
	labelCode    = 86.0 // the code with the quiet zone around it
	quietZone    = 4    // modules (ISO/IEC 18004, 6.3.8)

	largerLetters = 13.0 / 12 // than those of the details in a graph
)

// LabelsOnASheet is how many labels one drawing holds at most.
const LabelsOnASheet = labelColumns * labelRows

// codeOf makes the QR code (ISO/IEC 18004) of a text, with error correction of
// level M, so that it can be read with some dirt on it.
func codeOf(text string) (barcode.Barcode, error) { return qr.Encode(text, qr.M, qr.Auto) }

// labels draws a sheet of labels, all alike.
func (d *drawing) labels(p Labels) {
	code, err := codeOf(p.Code)
	if err != nil {
		return // Check has told of it
	}
	const room = labelWide - labelCode - 3*labelInset
	d.wide = labelColumns * labelWide
	top, high := d.y, labelHigh
	for i := range p.Count { // the first tells how high they are
		left, y := float64(i%labelColumns)*labelWide, top+float64(i/labelColumns)*high
		d.y = y + labelInset/2
		d.lines(wrapInk(visible(p.Heading), room, boldWider), left+labelInset, "strong")
		for _, line := range p.Lines {
			d.lines(wrapInk(visible(line), room, largerLetters), left+labelInset, "")
		}
		high = max(high, d.y-y+labelInset)
		d.code(code, left+labelWide-labelCode-labelInset, y+(high-labelCode)/2)
		d.element("rect", "", "class", "card", "fill", "none", "fill-opacity", "0", "stroke", "currentColor", "x", figure(left), "y", figure(y),
			"width", figure(labelWide), "height", figure(high))
	}
	d.y = top + float64((p.Count+labelColumns-1)/labelColumns)*high + lineHeight/2
	d.words(p.Foot, 0, d.wide, "soft")
}

// code draws the modules of a QR code, dark on light whatever the colours
// around, row by row in runs.
func (d *drawing) code(code barcode.Barcode, left, top float64) {
	size := code.Bounds().Dx()
	d.open("g", "transform", fmt.Sprintf("translate(%s %s) scale(%.4f)", figure(left), figure(top), labelCode/float64(size+2*quietZone)))
	d.element("rect", "", "class", "code-paper", "fill", "#fff", "width", figure(float64(size+2*quietZone)), "height", figure(float64(size+2*quietZone)))
	var path strings.Builder
	for y := range size {
		for x := 0; x < size; x++ {
			run := x
			for run < size && dark(code, run, y) {
				run++
			}
			if run > x {
				fmt.Fprintf(&path, "M%d %dh%dv1h-%dz", x+quietZone, y+quietZone, run-x, run-x)
				x = run
			}
		}
	}
	d.element("path", "", "class", "code", "fill", "#000", "shape-rendering", "crispEdges", "d", path.String())
	d.out.WriteString("</g>\n")
}

func dark(code barcode.Barcode, x, y int) bool {
	r, _, _, _ := code.At(x, y).RGBA()
	return r < 0x8000
}
