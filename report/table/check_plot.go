package table

import (
	"math"
	"slices"
)

// plot makes sure that a drawing also says in words what it shows.
func (c *checker) plot(p Plot) {
	if title, desc := p.caption(); title == "" || desc == "" {
		c.fault("a plot needs a title and a description")
	}
	for _, cell := range plotCells(p) {
		c.cell(cell)
		switch cell.kind {
		case KindText, KindDate:
			c.fault("a plot can't draw words or dates")
		}
	}
	if p, ok := p.(Tornado); ok && math.IsNaN(p.Base.position()) {
		c.fault("a tornado needs a base to swing around")
	}
	switch p := p.(type) {
	case Graph:
		c.graph(p)
	case Labels:
		if _, err := codeOf(p.Code); err != nil || p.Count < 1 || p.Count > LabelsOnASheet {
			c.fault("%d labels, or a code that can't be drawn: %v", p.Count, err)
		}
	}
	if slices.ContainsFunc(plotNumbers(p), math.IsNaN) {
		c.fault("a plot has a place that is not a number")
	}
}

// graph makes sure that every step leads from and to a node and is of a kind.
func (c *checker) graph(p Graph) {
	for i, e := range p.Edges {
		if e.From < 0 || e.From >= len(p.Nodes) || e.To < 0 || e.To >= len(p.Nodes) || e.Line < 0 || e.Line >= len(p.Lines) {
			c.fault("step %d of a graph leads nowhere, or is of no kind", i+1)
		}
	}
}

// plotNumbers returns the numbers that a plot can't do without.
func plotNumbers(p Plot) []float64 {
	var numbers []float64
	switch p := p.(type) {
	case Curve:
		for _, line := range p.Lines {
			numbers = append(numbers, line.End)
			for _, s := range line.Steps {
				numbers = append(numbers, s.At, s.Share)
			}
		}
	case Chart:
		numbers = append(numbers, p.Centre)
		for _, s := range p.Points {
			numbers = append(numbers, s.Share, s.Lower, s.Upper)
		}
	}
	return numbers
}

// plotCells returns the cells that a plot draws.
func plotCells(p Plot) []Cell {
	var cells []Cell
	switch p := p.(type) {
	case Dots:
		cells = append(cells, p.Reference)
		for _, row := range p.Rows {
			cells = append(cells, row.Low, row.Point, row.High)
		}
	case Tornado:
		cells = append(cells, p.Base)
		for _, s := range p.Swings {
			cells = append(cells, s.Low, s.High)
		}
	case Bars:
		for _, bar := range p.Rows {
			cells = append(cells, bar.Value)
		}
	}
	return cells
}
