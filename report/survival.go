package report

import (
	"fmt"
	"slices"

	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/stat"
	"github.com/budstick/budstick/report/table"
)

var survival = &Report{
	Name:    "survival",
	Summary: "how many are still alive so many days after, by method, mother or any other",
	Long: `The share alive against the days since the graft was made, the layer set, the cutting stuck or the seed sown: from
every check, loss, late failure and return. A graft ends when its top dies, though the stock may live. What is sold,
given, planted out, culled, joined with another lot or used as a stock is withdrawn: it was alive so long, and nothing is
known of it after. Of what comes back from a buyer it is known again. What never had a verdict says nothing.

The estimate is that of Kaplan and Meier, with log-log intervals at 95 % from Greenwood's error; groups are compared by the
log-rank test. A death is dated by the look that found it, since nobody saw it happen; below the table stands between what
limits the share alive may lie if that is left open (Turnbull).`,
	Example: "--by method --season 2026",
	Takes:   Spans | Filters | Groups | Kinds | Ordinals,
	By:      dimensionNames(),
	Build:   buildSurvival,
}

// milestones are the days at which survival is told.
var milestones = [...]int{30, 90, 180}

// since says what the days are counted from.
var since = [...]string{
	nursery.GraftBatch: "days since the graft", nursery.LayerBatch: "days since the layer was set",
	nursery.CuttingBatch: "days since the cutting was stuck", nursery.SeedBatch: "days since the sowing",
}

// survivors are the survival of one group.
type survivors struct {
	group
	lives []*life
	exits []stat.Exit
	curve stat.Curve
}

// A survivalTable is the survival of some groups.
type survivalTable struct {
	kind   nursery.BatchKind
	words  wording
	by     []string
	groups []survivors // with anything known of them
	silent []string    // groups of which nothing is known
	lives  []*life
	test   stat.LogRankTest
	tested bool
	lots   stat.Overdispersion // of the shares that lived, within groups
}

func buildSurvival(n *nursery.Nursery, o Options) (*table.Doc, error) {
	if err := askable(n, o); err != nil {
		return nil, err
	}
	t := newSurvivalTable(n, o, askedFor(o.By, "variety"))
	doc := cohort(n, o, "survival", fmt.Sprintf("Survival of %s by %s", t.words.many, listed(t.by)))
	if len(t.groups) > 0 {
		doc.Body = append(doc.Body, t.drawing())
	}
	doc.Body = append(doc.Body, t.summary(), t.curves(), t.facts())
	doc.Notes = t.notes(n, o)
	return doc, nil
}

func newSurvivalTable(n *nursery.Nursery, o Options, by []string) *survivalTable {
	t := &survivalTable{kind: o.Kind, words: wordings[o.Kind], by: by}
	batches := chosen(n, o)
	t.lives = livesOf(n, batches, o.AsAt)
	of := make(map[*nursery.Batch]*life, len(batches))
	for _, l := range t.lives {
		of[l.batch] = l
	}
	var exits [][]stat.Exit
	var lots [][]stat.Tally
	for _, g := range grouped(n, batches, by) {
		s := survivors{group: g}
		var tallies []stat.Tally
		for _, b := range g.batches {
			l := of[b]
			s.lives = append(s.lives, l)
			s.exits = append(s.exits, l.exits()...)
			if tally := l.tally(); tally.N > 0 {
				tallies = append(tallies, tally)
			}
		}
		s.curve = stat.KaplanMeier(s.exits, confidence, stat.LogLog)
		if len(s.curve.Points) == 0 {
			t.silent = append(t.silent, g.name())
			continue
		}
		t.groups = append(t.groups, s)
		exits = append(exits, s.exits)
		lots = append(lots, tallies)
	}
	t.test, t.tested = stat.LogRank(exits)
	t.lots = stat.BetweenLots(lots...)
	return t
}

// plants is how many a group follows, and how many of them died.
func (s survivors) plants() (all, died int) {
	for _, e := range s.exits {
		all += e.Died + e.Withdrawn
		died += e.Died
	}
	return all, died
}

// alive is the share alive on a day with its interval; ok is false where nobody
// was watched so long.
func (s survivors) alive(day int) (share float64, limits stat.Interval, ok bool) {
	points := s.curve.Points
	if day < points[0].Day {
		return 1, stat.Wilson(points[0].AtRisk, points[0].AtRisk, confidence), true
	}
	p, ok := s.curve.At(day)
	return p.Alive, p.Interval, ok
}

// summary is the table of groups: the median, and the share alive at the
// milestones.
func (t *survivalTable) summary() table.Table {
	tab := table.Table{Name: "summary", Title: "Alive so many days after", Grouped: true, Columns: append(groupColumns(t.by),
		table.Column{Name: "plants", Kind: table.KindCount, Spare: 1},
		table.Column{Name: "died", Kind: table.KindCount},
		table.Column{Name: "withdrawn", Kind: table.KindCount, Spare: 6},
		table.Column{Name: "unseen", Kind: table.KindCount, For: table.Machines},
		table.Column{Name: "died_expected", Kind: table.KindNumber, For: table.Machines},
		table.Column{Name: "median", Heading: "half dead by", Kind: table.KindDays, Spare: 5},
		table.Column{Name: "median_low", Kind: table.KindDays, For: table.Machines},
		table.Column{Name: "median_high", Kind: table.KindDays, For: table.Machines},
	)}
	for _, day := range milestones {
		low, high := fmt.Sprintf("low_%d", day), fmt.Sprintf("high_%d", day)
		tab.Columns = append(tab.Columns,
			table.Column{Name: fmt.Sprintf("alive_%d", day), Heading: fmt.Sprintf("day %d", day), Kind: table.KindRate, Low: low, High: high},
			table.Column{Name: low, Kind: table.KindRate, For: table.Machines},
			table.Column{Name: high, Kind: table.KindRate, For: table.Machines})
	}
	for i, s := range t.groups {
		tab.Add(append(s.cells(), t.figures(i, s)...)...)
	}
	tab.Notes = t.sentences()
	return tab
}

// figures are the cells of one group.
func (t *survivalTable) figures(i int, s survivors) []table.Cell {
	all, died := s.plants()
	unseen := 0
	for _, l := range s.lives {
		unseen += l.unseen
	}
	expected := table.Unknown()
	if t.tested {
		expected = table.Number(t.test.Expected[i])
	}
	m := s.curve.Median()
	cells := []table.Cell{table.Count(all), table.Count(died), table.Count(all - died), table.Count(unseen), expected,
		reached(m.Day), reached(m.Low), reached(m.High)}
	for _, day := range milestones {
		share, limits, ok := s.alive(day)
		if !ok {
			cells = append(cells, table.Unknown(), table.Unknown(), table.Unknown())
			continue
		}
		cells = append(cells, table.Rate(share), table.Rate(limits.Low), table.Rate(limits.High))
	}
	return cells
}

// reached is a day, not known where the curve does not come to it.
func reached(day int) table.Cell {
	if day == stat.Never {
		return table.Unknown()
	}
	return table.Days(day)
}

// curves are all points of all curves, for programs.
func (t *survivalTable) curves() table.Table {
	tab := table.Table{Name: "curves", Nest: "points", Grouped: true, Columns: append(groupColumns(t.by),
		table.Column{Name: "day", Kind: table.KindDays},
		table.Column{Name: "at_risk", Kind: table.KindCount},
		table.Column{Name: "died", Kind: table.KindCount},
		table.Column{Name: "withdrawn", Kind: table.KindCount},
		table.Column{Name: "alive_share", Kind: table.KindRate},
		table.Column{Name: "std_error", Kind: table.KindNumber},
		table.Column{Name: "low", Kind: table.KindRate},
		table.Column{Name: "high", Kind: table.KindRate},
	)}
	forMachines(tab.Columns)
	for _, s := range t.groups {
		for _, p := range s.curve.Points {
			tab.Add(append(s.cells(), table.Days(p.Day), table.Count(p.AtRisk), table.Count(p.Died), table.Count(p.Withdrawn),
				table.Rate(p.Alive), table.Number(p.StdError), table.Rate(p.Low), table.Rate(p.High))...)
		}
	}
	return tab
}

// facts are the test between groups.
func (t *survivalTable) facts() table.Facts {
	var chiSquare, df, p, wide, phi table.Cell
	audience := table.Machines
	if t.tested {
		audience = table.Everyone
		chiSquare, df, p = table.Number(t.test.Statistic), table.Count(t.test.DF), table.PValue(t.test.P)
		wide, phi = table.PValue(t.lots.Widen(t.test.Test).P), table.Number(t.lots.Phi())
	}
	return table.Facts{Name: "logrank", Title: "Do the groups differ?", Items: []table.Fact{
		{Name: "chi_square", Heading: "log-rank chi square", Value: chiSquare, For: audience},
		{Name: "df", Heading: "groups less one", Value: df, For: audience},
		{Name: "p", Heading: "by luck, each plant for itself", Value: p, For: audience},
		{Name: "dispersion", Heading: "dispersion between lots (1 is luck alone)", Value: phi, For: audience},
		{Name: "p_wide", Heading: "by luck, lots allowed for", Value: wide, For: audience},
	}}
}

// horizon is the day at which groups are told against each other: the last to
// which all with enough plants were watched, or if that is before the first
// milestone the last to which two were; but no later than the last milestone.
func (t *survivalTable) horizon() int {
	var all, enough []int
	for _, s := range t.groups {
		end := stat.Never
		if last := s.curve.Points[len(s.curve.Points)-1]; last.Alive > 0 {
			end = last.Day
		}
		all = append(all, end)
		if plants, _ := s.plants(); plants >= fewKnown {
			enough = append(enough, end)
		}
	}
	slices.Sort(all)
	day := all[max(0, len(all)-2)]
	if len(enough) > 1 && slices.Min(enough) >= milestones[0] {
		day = slices.Min(enough)
	}
	return min(day, milestones[len(milestones)-1])
}

// rivals are the groups that were watched up to a day.
func (t *survivalTable) rivals(day int) []rival {
	var out []rival
	for _, s := range t.groups {
		if share, _, ok := s.alive(day); ok {
			all, died := s.plants()
			out = append(out, rival{s.name(), stat.Tally{X: all - died, N: all}, share, share})
		}
	}
	return out
}

// exitsOf are the ends of the group of a name.
func (t *survivalTable) exitsOf(name string) []stat.Exit {
	i := slices.IndexFunc(t.groups, func(s survivors) bool { return s.name() == name })
	return t.groups[i].exits
}
