package report

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/stat"
	"github.com/budstick/budstick/report/table"
)

var chart = &Report{
	Name:    "chart",
	Summary: "when the take slipped: week by week or month by month, by hand, method or mother",
	Long: `A control chart of the take (a p-chart) for each hand, method, mother or what --by names: a point for each week or
month in which attempts were made, their take, and the limits within which luck alone keeps it, three standard errors from
the middle. A point outside signals; so do eight in a row on one side of the middle, which a slow slip shows first. The
middle is the group's own take over all that is charted.

A point is for the week or month in which the attempts were made, not that of the check. Attempts without a verdict count
for nothing.`,
	Example: "--by worker --season 2026 --step week",
	Takes:   Spans | Filters | Groups | Kinds | Ordinals | Steps,
	By:      dimensionNames(),
	Build:   buildChart,
}

// A charted is the chart of one group.
type charted struct {
	group
	starts []fact.Date // of the weeks or months with an outcome
	chart  stat.PChart
}

// A chartTable is the charts of some groups.
type chartTable struct {
	words  wording
	by     []string
	step   Step
	groups []charted // with two points at least
	short  []string  // groups with fewer
	known  stat.Tally
	made   int
	lots   stat.Overdispersion
}

func buildChart(n *nursery.Nursery, o Options) (*table.Doc, error) {
	if err := askable(n, o); err != nil {
		return nil, err
	}
	t := newChartTable(n, o)
	title := fmt.Sprintf("%s by %s", t.words.title, t.step.word())
	if len(t.by) > 0 {
		title += ", for each " + listed(t.by)
	}
	doc := cohort(n, o, "chart", title)
	drawn := slices.Clone(t.groups)
	slices.SortStableFunc(drawn, func(a, b charted) int { return cmp.Compare(len(b.chart.Signals), len(a.chart.Signals)) })
	for _, c := range drawn[:min(len(drawn), mostCharts)] {
		doc.Body = append(doc.Body, t.drawing(c))
	}
	doc.Body = append(doc.Body, t.signals(), t.points())
	doc.Notes = t.notes(n, o)
	return doc, nil
}

// mostCharts is how many charts are drawn, those that signal first.
const mostCharts = 8

func newChartTable(n *nursery.Nursery, o Options) *chartTable {
	t := &chartTable{words: wordings[o.Kind], by: askedFor(o.By), step: o.Step}
	batches := chosen(n, o)
	t.made = len(batches)
	if t.step == FitStep {
		t.step = fitStep(batches)
	}
	var lots [][]stat.Tally
	for _, g := range grouped(n, batches, t.by) {
		c := charted{group: g}
		samples := map[fact.Date]stat.Tally{}
		var own []stat.Tally
		for _, b := range g.batches {
			of := outcome(b)
			if of.N == 0 {
				continue
			}
			own = append(own, of)
			start := t.step.start(b.Day)
			samples[start] = stat.Pool([]stat.Tally{samples[start], of})
		}
		lots = append(lots, own)
		var tallies []stat.Tally
		for start := range samples {
			c.starts = append(c.starts, start)
		}
		slices.Sort(c.starts)
		for _, start := range c.starts {
			tallies = append(tallies, samples[start])
		}
		t.known = stat.Pool(append(own, t.known))
		if len(tallies) < 2 {
			t.short = append(t.short, g.name())
			continue
		}
		c.chart = stat.NewPChart(tallies)
		t.groups = append(t.groups, c)
	}
	t.lots = stat.BetweenLots(lots...)
	return t
}

// fitStep is weeks for what was made within a year, else months.
func fitStep(batches []*nursery.Batch) Step {
	if len(batches) == 0 {
		return Week
	}
	byDay := func(a, b *nursery.Batch) int { return cmp.Compare(a.Day, b.Day) }
	if slices.MaxFunc(batches, byDay).Day-slices.MinFunc(batches, byDay).Day > 366 {
		return Month
	}
	return Week
}

// start is the first day of the week or month that holds a day.
func (s Step) start(day fact.Date) fact.Date {
	if s == Month {
		year, month, _ := day.Civil()
		first, _ := fact.NewDate(year, month, 1)
		return first
	}
	const monday = 1
	return day - fact.Date((int(day.Weekday())+7-monday)%7)
}

// label is how a week or month is written.
func (s Step) label(start fact.Date) string {
	if s == Month {
		return start.String()[:len("2026-03")]
	}
	return start.String()
}

func (s Step) word() string {
	if s == Month {
		return "month"
	}
	return "week"
}

// when names a week or month in a sentence.
func (s Step) when(start fact.Date) string {
	if s == Month {
		return s.label(start)
	}
	return "the week of " + start.Long()
}

// drawing draws the chart of a group.
func (t *chartTable) drawing(c charted) table.Chart {
	title := t.words.title
	if len(t.by) > 0 {
		title = c.name()
	}
	d := table.Chart{Title: title, Axis: t.step.word() + " begun", Centre: c.chart.Centre, Desc: t.said(c)}
	for i, p := range c.chart.Points {
		d.Points = append(d.Points, table.Sample{
			Label: t.step.label(c.starts[i]), Share: p.Rate(), Lower: p.Low, Upper: p.High, Signal: c.signal(i) != "",
		})
	}
	return d
}

// signalWords name the rules by which a point signals.
var signalWords = [...]string{
	stat.AboveLimit: "above", stat.BelowLimit: "below", stat.RunAbove: "run above", stat.RunBelow: "run below",
}

// signal is what a point signals: a limit crossed before a run.
func (c charted) signal(i int) string {
	for _, s := range c.chart.Signals {
		if s.First <= i && i <= s.Last {
			return signalWords[s.Kind]
		}
	}
	return ""
}

// signals is the table of what signals, group by group.
func (t *chartTable) signals() table.Table {
	tab := table.Table{Name: "signals", Title: "What luck alone would seldom do", Grouped: true, Columns: append(groupColumns(t.by),
		table.Column{Name: "signal", Kind: table.KindText},
		table.Column{Name: "from", Kind: table.KindDate},
		table.Column{Name: "to", Heading: "to that of", Kind: table.KindDate},
		table.Column{Name: "known", Kind: table.KindCount},
		table.Column{Name: "took", Heading: t.words.took, Kind: table.KindCount},
		table.Column{Name: "rate", Heading: t.words.rate, Kind: table.KindRate},
		table.Column{Name: "centre", Heading: "middle", Kind: table.KindRate, Spare: 1},
	)}
	for _, c := range t.groups {
		for _, s := range c.chart.Signals {
			var sum stat.Tally
			for _, p := range c.chart.Points[s.First : s.Last+1] {
				sum = stat.Pool([]stat.Tally{sum, p.Tally})
			}
			tab.Add(append(c.cells(), table.Text(signalWords[s.Kind]), table.Date(c.starts[s.First].String()), table.Date(c.starts[s.Last].String()),
				table.Count(sum.N), table.Count(sum.X), ratio(sum.X, sum.N), table.Rate(c.chart.Centre))...)
		}
	}
	if len(tab.Rows) == 0 {
		forMachines(tab.Columns)
	}
	return tab
}

// points are all points of all charts, for programs.
func (t *chartTable) points() table.Table {
	tab := table.Table{Name: "charts", Nest: "points", Grouped: true, Columns: append(groupColumns(t.by),
		table.Column{Name: "from", Kind: table.KindDate},
		table.Column{Name: "known", Kind: table.KindCount},
		table.Column{Name: "took", Kind: table.KindCount},
		table.Column{Name: "rate", Kind: table.KindRate},
		table.Column{Name: "centre", Kind: table.KindRate},
		table.Column{Name: "limit_low", Kind: table.KindRate},
		table.Column{Name: "limit_high", Kind: table.KindRate},
		table.Column{Name: "z", Kind: table.KindNumber},
		table.Column{Name: "signal", Kind: table.KindText},
	)}
	forMachines(tab.Columns)
	for _, c := range t.groups {
		for i, p := range c.chart.Points {
			tab.Add(append(c.cells(), table.Date(c.starts[i].String()), table.Count(p.N), table.Count(p.X), table.Rate(p.Rate()),
				table.Rate(c.chart.Centre), table.Rate(p.Low), table.Rate(p.High), table.Number(p.Z), textOrUnknown(c.signal(i)))...)
		}
	}
	return tab
}
