package report

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/budstick/budstick/report/table"
)

// mostLines is how many curves are drawn together.
const mostLines = 8

// drawing draws the curves, of many groups those with most plants.
func (t *survivalTable) drawing() table.Curve {
	drawn := slices.Clone(t.groups)
	if len(drawn) > mostLines {
		size := func(s survivors) int { all, _ := s.plants(); return all }
		slices.SortStableFunc(drawn, func(a, b survivors) int { return cmp.Compare(size(b), size(a)) })
		drawn = drawn[:mostLines]
	}
	c := table.Curve{Title: "Share alive", Axis: since[t.kind], Desc: t.described(len(drawn))}
	end := drawnTo(drawn)
	for _, s := range drawn {
		line := table.Line{Name: s.name()}
		for _, p := range s.curve.Points {
			line.End = float64(min(p.Day, end))
			if p.Died > 0 {
				line.Steps = append(line.Steps, table.Step{At: float64(p.Day), Share: p.Alive, Low: p.Low, High: p.High})
			}
		}
		c.Lines = append(c.Lines, line)
	}
	return c
}

// drawnTo is the day up to which curves are drawn: past the last milestone and
// the last death, since a level line has no more to say.
func drawnTo(groups []survivors) int {
	last := milestones[len(milestones)-1]
	for _, s := range groups {
		for _, p := range s.curve.Points {
			if p.Died > 0 {
				last = max(last, p.Day)
			}
		}
	}
	return last + last/10
}

// described says in words what the drawing shows.
func (t *survivalTable) described(drawn int) string {
	day := t.horizon()
	rivals := t.rivals(day)
	byRate := func(a, b rival) int { return cmp.Compare(a.rate, b.rate) }
	best, worst := slices.MaxFunc(rivals, byRate), slices.MinFunc(rivals, byRate)
	s := fmt.Sprintf("%d days on, %s lived.", day, percent(best.rate))
	if len(rivals) > 1 {
		s = fmt.Sprintf("%d days on, between %s (%s) and %s (%s) lived.", day, percent(worst.rate), worst.name, percent(best.rate), best.name)
	}
	if len(t.groups) > drawn {
		s += fmt.Sprintf(" Drawn are the %d of %s groups with most plants.", drawn, grouping(len(t.groups)))
	}
	return s
}
