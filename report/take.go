package report

import (
	"fmt"
	"strings"

	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/stat"
	"github.com/budstick/budstick/report/table"
)

// confidence is that of every interval in the reports.
const confidence = 0.95

var take = &Report{
	Name:    "take",
	Summary: "what took, by method, mother, hand, month or any other",
	Long: `The take is the share of attempts that succeeded, of those whose outcome is known: one stock worked once is one
attempt, whatever the scions on it. First attempts only, unless --attempts says otherwise, since a stock that is worked
again is a weaker one. Sums are divided by sums; percentages are never averaged.

The range is the 95 % interval of Wilson, widened where lots differ from each other by more than luck. The bounds count
every attempt of which nothing is known against the take, and for it.`,
	Example: "--by method,worker --season 2026",
	Takes:   Spans | Filters | Groups | Kinds | Ordinals,
	By:      dimensionNames(),
	Build:   buildTake,
}

// tallied is the sums of a group's batches.
type tallied struct {
	lots                                    int
	made, took, failed, dead, left, late    int
	early, scionsKnown, scionsAlive, plants int
	about                                   bool
	kind                                    nursery.BatchKind
	perLot                                  []stat.Tally // lots of which something is known
}

func tallyUp(batches []*nursery.Batch) tallied {
	t := tallied{lots: len(batches)}
	for _, b := range batches {
		t.kind = b.Kind
		t.made += int(b.Made)
		t.took += int(b.Took)
		t.failed += int(b.Failed)
		t.dead += int(b.Dead)
		t.left += int(b.Left)
		t.late += int(b.Late)
		t.early += int(b.Early)
		t.scionsKnown += int(b.ScionsKnown)
		t.scionsAlive += int(b.ScionsAlive)
		t.plants += int(b.Plants)
		t.about = t.about || b.About
		if known := b.Known(); known > 0 {
			t.perLot = append(t.perLot, stat.Tally{X: int(b.Took), N: int(known)})
		}
	}
	return t
}

func (t tallied) known() int   { return t.took + t.failed }
func (t tallied) waiting() int { return t.made - t.known() - t.left }

func (t tallied) tally() stat.Tally { return stat.Tally{X: t.took, N: t.known()} }

func buildTake(n *nursery.Nursery, o Options) (*table.Doc, error) {
	by := o.By
	if len(by) == 0 {
		by = []string{"variety"}
	}
	batches := chosen(n, o)
	groups := grouped(n, batches, by)
	sums := make([]tallied, len(groups))
	perLot := make([][]stat.Tally, len(groups))
	ofGroups := make([]stat.Tally, len(groups))
	for i, g := range groups {
		sums[i] = tallyUp(g.batches)
		perLot[i], ofGroups[i] = sums[i].perLot, sums[i].tally()
	}
	between := stat.BetweenLots(perLot...)
	spread := stat.FitSpread(ofGroups)
	row := func(t tallied, groups []table.Cell, ranked bool) []table.Cell {
		return append(groups, takeCells(t, between.Widening(t.perLot), spread, ranked)...)
	}
	rows := table.Table{Name: "rows", Columns: append(groupColumns(by), takeColumns(o.Kind)...)}
	for i, g := range groups {
		rows.Rows = append(rows.Rows, row(sums[i], g.cells(), true))
	}
	if len(groups) > 1 {
		all := make([]table.Cell, len(by))
		all[0] = table.Text("all")
		rows.Total = row(tallyUp(batches), all, false)
	}
	doc := cohort(n, o, "take", fmt.Sprintf("%s by %s", takeTitle[o.Kind], strings.Join(by, " and ")))
	doc.Body = []table.Block{rows}
	doc.Notes = takeNotes(o, len(groups), between, spread, tallyUp(batches))
	return doc, nil
}

var takeTitle = [...]string{
	nursery.GraftBatch: "Take of grafts", nursery.LayerBatch: "Rooting of layers",
	nursery.CuttingBatch: "Rooting of cuttings", nursery.SeedBatch: "Germination of seed",
}

// tookWord is what a success is called.
var tookWord = [...]string{
	nursery.GraftBatch: "took", nursery.LayerBatch: "rooted", nursery.CuttingBatch: "rooted", nursery.SeedBatch: "up",
}

func takeColumns(kind nursery.BatchKind) []table.Column {
	took := tookWord[kind]
	cols := []table.Column{
		{Name: "lots", Kind: table.KindCount, Spare: 3},
		{Name: "attempts", Heading: "made", Kind: table.KindCount},
		{Name: "known", Kind: table.KindCount},
		{Name: "took", Heading: took, Kind: table.KindCount},
		{Name: "failed", Kind: table.KindCount, Spare: 1},
		{Name: "left", Kind: table.KindCount, Spare: 4},
		{Name: "waiting", Kind: table.KindCount, Spare: 2},
		{Name: "rate", Heading: "take", Kind: table.KindRate, Low: "wide_low", High: "wide_high"},
		{Name: "low", Kind: table.KindRate, For: table.Machines},
		{Name: "high", Kind: table.KindRate, For: table.Machines},
		{Name: "wide_low", Kind: table.KindRate, For: table.Machines},
		{Name: "wide_high", Kind: table.KindRate, For: table.Machines},
		{Name: "bound_low", Heading: "at least", Kind: table.KindRate, Spare: 6},
		{Name: "bound_high", Heading: "at most", Kind: table.KindRate, Spare: 6},
		{Name: "shrunken", Kind: table.KindRate, Spare: 5},
		{Name: "late", Heading: "failed later", Kind: table.KindCount, Spare: 7},
	}
	switch kind {
	case nursery.GraftBatch:
		cols = append(cols,
			table.Column{Name: "scions_known", Kind: table.KindCount, For: table.Machines},
			table.Column{Name: "scions_alive", Kind: table.KindCount, For: table.Machines},
			table.Column{Name: "scion_take", Kind: table.KindRate, Spare: 8})
	case nursery.SeedBatch:
		cols = append(cols,
			table.Column{Name: "plants", Kind: table.KindCount, Spare: 2},
			table.Column{Name: "plants_per_seed", Heading: "plants per seed", Kind: table.KindRate, Spare: 3})
	}
	return cols
}

// fewKnown is below how many known outcomes a rate is marked as resting on few
// data: at 10 of 20 the interval still spans 40 points.
const fewKnown = 10

// takeCells are the figures of one group; ranked ones get a shrunken rate.
func takeCells(t tallied, widening stat.Widening, spread stat.Spread, ranked bool) []table.Cell {
	var marks []table.Mark
	if t.about {
		marks = append(marks, table.Estimated)
	}
	if t.early > 0 {
		marks = append(marks, table.Provisional)
	}
	rate, low, high, wideLow, wideHigh := table.Unknown(), table.Unknown(), table.Unknown(), table.Unknown(), table.Unknown()
	boundLow, boundHigh, shrunken := table.Unknown(), table.Unknown(), table.Unknown()
	if known := t.known(); known > 0 {
		plain := stat.Wilson(t.took, known, confidence)
		wide := stat.WilsonWide(t.tally(), widening, confidence)
		rate = table.Rate(t.tally().Rate()).With(marks...)
		if known < fewKnown {
			rate = rate.With(table.FewData)
		}
		low, high = table.Rate(plain.Low), table.Rate(plain.High)
		wideLow, wideHigh = table.Rate(wide.Low), table.Rate(wide.High)
		if ranked {
			shrunken = table.Rate(spread.Shrink(t.tally(), confidence).Rate)
		}
	}
	if t.made > 0 {
		boundLow = table.Rate(ratio(t.took, t.made))
		boundHigh = table.Rate(ratio(t.made-t.failed, t.made))
	}
	cells := []table.Cell{
		table.Count(t.lots), table.Count(t.made), table.Count(t.known()), table.Count(t.took), table.Count(t.failed),
		table.Count(t.left), table.Count(t.waiting()), rate, low, high, wideLow, wideHigh, boundLow, boundHigh, shrunken, table.Count(t.late),
	}
	switch t.kind {
	case nursery.GraftBatch:
		scionTake := table.Unknown()
		if t.scionsKnown > 0 {
			scionTake = table.Rate(ratio(t.scionsAlive, t.scionsKnown))
		}
		cells = append(cells, table.Count(t.scionsKnown), table.Count(t.scionsAlive), scionTake)
	case nursery.SeedBatch:
		perSeed := table.Unknown()
		if known := t.known(); known > 0 {
			perSeed = table.Rate(ratio(t.plants, known))
		}
		cells = append(cells, table.Count(t.plants), perSeed)
	}
	return cells
}

func ratio(x, n int) float64 { return float64(x) / float64(n) }

// takeNotes say in words how the figures were reckoned and how far they go.
func takeNotes(o Options, groups int, between stat.Overdispersion, spread stat.Spread, all tallied) []string {
	var notes []string
	if o.Kind == nursery.GraftBatch {
		notes = append(notes, map[Attempts]string{
			First: "First attempts on each stock only; stocks that were worked again are left out.",
			Again: "Second and later attempts on a stock only.",
			Every: "All attempts; a stock that was worked twice counts twice.",
		}[o.Attempts])
	}
	if all.known() == 0 {
		return append(notes, "Nothing is known yet: no verdict has been written. A check says what took: check AM26: 39 took, 6 failed, 3 dead.")
	}
	if between.Rho() > 0 {
		notes = append(notes, fmt.Sprintf("Lots differ more than luck would have them (dispersion %.1f), so the ranges are wider than by the count alone.", between.Phi()))
	}
	if groups > 2 && spread.Edge == stat.Inside {
		notes = append(notes, "The shrunken rate draws small groups towards the rest (beta-binomial, maximum likelihood), so that 2 of 2 does not lead the table.")
	}
	if open := all.waiting() + all.left; open*20 > all.made {
		notes = append(notes, fmt.Sprintf("Of %d attempts, %d were still waiting and %d had left before their check: they count neither way.", all.made, all.waiting(), all.left))
	}
	return notes
}
