package report

import (
	"fmt"
	"slices"
	"strings"

	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/stat"
)

// said tells in words what a chart shows.
func (t *chartTable) said(c charted) string {
	if len(c.chart.Signals) == 0 {
		return fmt.Sprintf("Nothing here that luck alone would not do: all within the limits, and no run of eight on one side of %s.", percent(c.chart.Centre))
	}
	var parts []string
	for _, s := range c.chart.Signals {
		first, last := t.step.when(c.starts[s.First]), t.step.when(c.starts[s.Last])
		p := c.chart.Points[s.First]
		switch s.Kind {
		case stat.AboveLimit:
			parts = append(parts, fmt.Sprintf("above the limit in %s (%d of %d)", first, p.X, p.N))
		case stat.BelowLimit:
			parts = append(parts, fmt.Sprintf("below the limit in %s (%d of %d)", first, p.X, p.N))
		case stat.RunAbove:
			parts = append(parts, fmt.Sprintf("%d in a row above the middle from %s to %s", c.length(s), first, last))
		case stat.RunBelow:
			parts = append(parts, fmt.Sprintf("%d in a row below the middle from %s to %s: a slip", c.length(s), first, last))
		}
	}
	return "Seldom by luck: " + strings.Join(parts, "; ") + "."
}

// length is how many points a run has; points exactly on the middle end a run,
// so it holds all between its ends.
func (c charted) length(s stat.Signal) int { return s.Last - s.First + 1 }

// sentences say whether anything slipped.
func (t *chartTable) sentences() []string {
	var out []string
	signals := slices.ContainsFunc(t.groups, func(c charted) bool { return len(c.chart.Signals) > 0 })
	switch {
	case t.made == 0:
		return []string{t.words.none()}
	case t.known.N == 0:
		return []string{"Nothing is known yet: none has a verdict."}
	case !signals && len(t.groups) > 0:
		out = append(out, fmt.Sprintf("Likely: no slip. No %s stands out, and there is no run.", t.step.word()))
	}
	if len(t.short) > 0 {
		out = append(out, fmt.Sprintf("Too few %ss to chart: %s.", t.step.word(), someOf(t.short)))
	}
	return out
}

// notes say how the charts were drawn up.
func (t *chartTable) notes(n *nursery.Nursery, o Options) []string {
	notes := t.sentences()
	if len(t.groups) == 0 {
		return notes
	}
	notes = append(notes, "The limits are three standard errors from the middle, by the count alone (Shewhart); runs are of eight or more.")
	if t.lots.Phi() > 1 {
		notes = append(notes, lotsDiffer(t.lots)+", so one point outside its limits means less than it seems; look for what those lots share.")
	}
	if hidden := len(t.groups) - mostCharts; hidden > 0 {
		notes = append(notes, fmt.Sprintf("Drawn are %d charts of %s, those that signal first.", mostCharts, grouping(len(t.groups))))
	}
	if s := passedOver(n, o); s != "" {
		notes = append(notes, s)
	}
	return notes
}
