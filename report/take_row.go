package report

import (
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/stat"
	"github.com/budstick/budstick/report/table"
)

// columns are those of a row, beside the group. What is nought in every row is
// for machines only.
func (t *takeTable) columns() []table.Column {
	some := func(n int) table.Audience {
		if n == 0 {
			return table.Machines
		}
		return table.Everyone
	}
	bounds := table.Machines
	if t.all.muchOpen() {
		bounds = table.Everyone
	}
	drawnIn := table.Machines
	if t.ranked() {
		drawnIn = table.Everyone
	}
	cols := []table.Column{
		{Name: "lots", Kind: table.KindCount, Spare: 6},
		{Name: "attempts", Heading: "made", Kind: table.KindCount, Spare: 8},
		{Name: "known", Kind: table.KindCount},
		{Name: "took", Heading: t.words.took, Kind: table.KindCount},
		{Name: "failed", Kind: table.KindCount, Spare: 7},
		{Name: "dead", Kind: table.KindCount, For: table.Machines},
		{Name: "left", Kind: table.KindCount, Spare: 3, For: some(t.all.left)},
		{Name: "waiting", Kind: table.KindCount, Spare: 2, For: some(t.all.waiting())},
		{Name: "rate", Heading: t.words.rate, Kind: table.KindRate, Low: "wide_low", High: "wide_high"},
		{Name: "low", Kind: table.KindRate, For: table.Machines},
		{Name: "high", Kind: table.KindRate, For: table.Machines},
		{Name: "wide_low", Kind: table.KindRate, For: table.Machines},
		{Name: "wide_high", Kind: table.KindRate, For: table.Machines},
		{Name: "bound_low", Heading: "at least", Kind: table.KindRate, Spare: 1, For: bounds},
		{Name: "bound_high", Heading: "at most", Kind: table.KindRate, Spare: 1, For: bounds},
		{Name: "shrunken", Heading: "drawn in", Kind: table.KindRate, Spare: 5, For: drawnIn},
		{Name: "early", Kind: table.KindCount, For: table.Machines},
		{Name: "late", Heading: "failed later", Kind: table.KindCount, Spare: 9, For: some(t.all.late)},
	}
	switch t.kind {
	case nursery.GraftBatch:
		cols = append(cols,
			table.Column{Name: "scions_known", Kind: table.KindCount, For: table.Machines},
			table.Column{Name: "scions_alive", Kind: table.KindCount, For: table.Machines},
			table.Column{Name: "scion_take", Kind: table.KindRate, For: table.Machines})
	case nursery.SeedBatch:
		cols[1].Heading, cols[1].Spare = "sown", 0
		cols[2].For = table.Machines
		cols = append(cols,
			table.Column{Name: "plants", Kind: table.KindCount, Spare: 2},
			table.Column{Name: "plants_per_100", Heading: "per 100 seeds", Kind: table.KindNumber, Decimals: 1, Spare: 3})
	}
	return cols
}

// cells are the figures of one group, or of all.
func (t *takeTable) cells(sum tallied, drawnIn table.Cell) []table.Cell {
	var rate, low, high, wideLow, wideHigh, boundLow, boundHigh table.Cell
	if n := sum.outcome.N; n > 0 {
		plain := stat.Wilson(sum.outcome.X, n, confidence)
		wide := stat.WilsonWide(sum.outcome, t.between.Widening(sum.perLot), confidence)
		rate = table.Rate(sum.outcome.Rate()).With(sum.marks()...)
		low, high = table.Rate(plain.Low), table.Rate(plain.High)
		wideLow, wideHigh = table.Rate(wide.Low), table.Rate(wide.High)
	} else {
		drawnIn = table.Unknown()
	}
	if sum.made > 0 {
		boundLow, boundHigh = ratio(sum.took, sum.made), ratio(sum.made-sum.failed, sum.made)
	}
	cells := []table.Cell{
		table.Count(sum.lots), table.Count(sum.made), table.Count(sum.known()), table.Count(sum.took),
		table.Count(sum.failed), table.Count(sum.dead), table.Count(sum.left), table.Count(sum.waiting()),
		rate, low, high, wideLow, wideHigh, boundLow, boundHigh, drawnIn, table.Count(sum.early), table.Count(sum.late),
	}
	switch t.kind {
	case nursery.GraftBatch:
		cells = append(cells, table.Count(sum.scionsKnown), table.Count(sum.scionsAlive), ratio(sum.scionsAlive, sum.scionsKnown))
	case nursery.SeedBatch:
		perHundred := table.Unknown()
		if n := sum.outcome.N; n > 0 {
			perHundred = table.Number(100 * float64(sum.plants) / float64(n))
		}
		cells = append(cells, table.Count(sum.plants), perHundred)
	}
	return cells
}

// marks are the doubts about a rate.
func (t tallied) marks() []table.Mark {
	var marks []table.Mark
	if t.about {
		marks = append(marks, table.Estimated)
	}
	if t.provisional {
		marks = append(marks, table.Provisional)
	}
	if t.outcome.N < fewKnown {
		marks = append(marks, table.FewData)
	}
	return marks
}

// ratio is the cell of a share, not known where it is of nothing.
func ratio(x, n int) table.Cell {
	if n == 0 {
		return table.Unknown()
	}
	return table.Rate(float64(x) / float64(n))
}
