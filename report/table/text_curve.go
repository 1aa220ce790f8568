package table

import (
	"math"
	"slices"
	"strings"
)

const (
	curveHeight = 11 // lines, so that every tenth of the share has one
	curveWidth  = 60 // cells at most
	shareRoom   = 5  // for "100%" and the axis
)

// lineSigns draw the lines of a curve; a curve alone is drawn as stairs.
var lineSigns = []rune("ABCDEFGHIJKLMNOPQRSTUVWXYZ")

// curve draws the lines on a grid of characters, shares up the side.
func (t *textWriter) curve(p Curve) {
	cells := min(t.width-shareRoom-1, curveWidth)
	right := p.end()
	grid := make([][]rune, curveHeight)
	for i := range grid {
		grid[i] = []rune(strings.Repeat(" ", cells))
	}
	for i, line := range slices.Backward(p.Lines) { // so that the first lies on top
		if len(p.Lines) == 1 {
			line.stairs(grid, right)
		} else {
			line.letters(grid, right, lineSigns[i%len(lineSigns)])
		}
	}
	for i, row := range grid {
		label := ""
		if i%5 == 0 {
			label = t.percent(t.decimal(fixed(100-100*float64(i)/(curveHeight-1), 0)))
		}
		t.line(strings.TrimRight(pad(label, shareRoom-1, true)+" │"+string(row), " "))
	}
	t.line(strings.Repeat(" ", shareRoom) + "└" + strings.Repeat("─", cells))
	foot := t.stripHeading(scale{low: 0, high: right, kind: KindCount}, cells)
	t.line(strings.Repeat(" ", shareRoom+1) + strings.TrimRight(foot, " "))
	t.paragraph(strings.Repeat(" ", shareRoom+1), visible(p.Axis), t.style.Dim)
	if len(p.Lines) > 1 {
		for i, line := range p.Lines {
			t.paragraph(string(lineSigns[i%len(lineSigns)])+"  ", visible(line.Name), nil)
		}
	}
}

// end returns how far to the right the longest line is known.
func (p Curve) end() float64 {
	end := 1.0
	for _, line := range p.Lines {
		end = max(end, line.last())
	}
	return end
}

// last returns where a line ends: at End, or at its last step if that is later.
func (l Line) last() float64 {
	if len(l.Steps) == 0 {
		return l.End
	}
	return max(l.End, l.Steps[len(l.Steps)-1].At)
}

// at returns the share in force at x.
func (l Line) at(x float64) float64 {
	share := 1.0
	for _, s := range l.Steps {
		if s.At > x {
			break
		}
		share = s.Share
	}
	return share
}

// level returns the line of the grid that a share is drawn on.
func level(share float64) int {
	return int(math.Round((1 - min(max(share, 0), 1)) * (curveHeight - 1)))
}

// heights returns the line of the grid at each cell, as far as the curve goes.
func (l Line) heights(cells int, right float64) []int {
	var heights []int
	for i := range cells {
		x := right * float64(i) / float64(cells-1)
		if x > l.last() {
			break
		}
		heights = append(heights, level(l.at(x)))
	}
	return heights
}

// stairs draws the line with its treads and risers.
func (l Line) stairs(grid [][]rune, right float64) {
	above := level(1)
	for i, h := range l.heights(len(grid[0]), right) {
		if i == 0 || h == above {
			grid[h][i] = '─'
			above = h
			continue
		}
		for j := min(above, h) + 1; j < max(above, h); j++ {
			grid[j][i] = '│'
		}
		grid[above][i], grid[h][i] = '┐', '└'
		if h < above {
			grid[above][i], grid[h][i] = '┘', '┌'
		}
		above = h
	}
}

// letters draws the line with one sign.
func (l Line) letters(grid [][]rune, right float64, sign rune) {
	for i, h := range l.heights(len(grid[0]), right) {
		grid[h][i] = sign
	}
}
