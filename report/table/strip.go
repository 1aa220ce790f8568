package table

import (
	"math"
	"strings"
)

// strokes are the signs that a span is drawn with.
type strokes struct{ from, along, to, point, reference rune }

// beyond mark the ends of spans that lie outside the scale.
const beyondLow, beyondHigh = '‹', '›'

var (
	intervalStrokes = strokes{'├', '─', '┤', '●', '┊'}
	limitStrokes    = strokes{'[', ' ', ']', '●', '┊'} // of a control chart
	swingStrokes    = strokes{'╞', '═', '╡', 0, '┊'}   // of a tornado
)

// strip draws a span on a scale in so many cells.
func (s scale) strip(sp span, cells int, with strokes) string {
	line := []rune(strings.Repeat(" ", cells))
	put := func(x float64, r rune) {
		if !math.IsNaN(x) && r != 0 {
			line[s.cell(x, cells)] = r
		}
	}
	put(s.reference, with.reference)
	if !math.IsNaN(sp.low) && !math.IsNaN(sp.high) {
		for i := s.cell(sp.low, cells); i < s.cell(sp.high, cells); i++ {
			if with.along != ' ' {
				line[i] = with.along
			}
		}
	}
	if sp.low < s.low {
		with.from = beyondLow
	}
	if sp.high > s.high {
		with.to = beyondHigh
	}
	put(sp.low, with.from)
	put(sp.high, with.to)
	put(sp.point, with.point)
	return string(line)
}

// cell returns the place of x among so many cells.
func (s scale) cell(x float64, cells int) int {
	return int(math.Round(s.at(x) * float64(cells-1)))
}

// stripHeading labels the two ends of a strip, if there is room for that.
func (n numerals) stripHeading(s scale, cells int) string {
	low, high := n.tick(s, s.low), n.tick(s, s.high)
	between := cells - width(low) - width(high)
	if between < 1 {
		return ""
	}
	return low + strings.Repeat(" ", between) + high
}

// block draws a length from the low end of the scale, to an eighth of a cell.
func (s scale) block(x float64, cells int) string {
	if math.IsNaN(x) {
		return ""
	}
	eighths := int(math.Round(s.at(x) * float64(cells) * 8))
	whole, part := strings.Repeat("█", eighths/8), ""
	if eighths%8 > 0 {
		part = string('█' + rune(8-eighths%8)) // the part blocks follow, from seven eighths down
	}
	return whole + part
}
