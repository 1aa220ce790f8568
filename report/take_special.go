package report

import (
	"slices"

	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/stat"
	"github.com/budstick/budstick/report/table"
)

// special are the tables of what has a take of its own, without those that
// have no rows.
func (t *takeTable) special(n *nursery.Nursery, o Options) []table.Block {
	var tables []table.Table
	switch o.Kind {
	case nursery.GraftBatch:
		tables = append(tables, t.stocks(n, o), t.scions(), t.unions(), t.limbs(n))
	case nursery.LayerBatch:
		tables = append(tables, t.established(n, o))
	}
	tables = append(tables, t.samples(n))
	var blocks []table.Block
	for _, tab := range tables {
		if len(tab.Rows) > 0 {
			blocks = append(blocks, tab)
		}
	}
	return blocks
}

// ofGroups begins a table with a row for each group.
func (t *takeTable) ofGroups(name, title string, columns ...[]table.Column) table.Table {
	return table.Table{
		Name: name, Title: title, Grouped: true,
		Columns: slices.Concat(append([][]table.Column{groupColumns(t.by)}, columns...)...),
	}
}

// counts are columns of counts, by name and heading in turn.
func counts(namesAndHeadings ...string) []table.Column {
	var cols []table.Column
	for pair := range slices.Chunk(namesAndHeadings, 2) {
		cols = append(cols, table.Column{Name: pair[0], Heading: pair[1], Kind: table.KindCount})
	}
	return cols
}

// rateColumns are a rate with its interval, by the count alone and widened.
// Only the first of them is for people, who see the wider interval beside it.
func rateColumns(prefix, heading string) []table.Column {
	rate := prefix + "rate"
	if prefix == "" {
		rate = "rate"
	}
	return []table.Column{
		{Name: rate, Heading: heading, Kind: table.KindRate, Low: prefix + "wide_low", High: prefix + "wide_high"},
		{Name: prefix + "low", Kind: table.KindRate, For: table.Machines},
		{Name: prefix + "high", Kind: table.KindRate, For: table.Machines},
		{Name: prefix + "wide_low", Kind: table.KindRate, For: table.Machines},
		{Name: prefix + "wide_high", Kind: table.KindRate, For: table.Machines},
	}
}

// rateCells are the cells of rateColumns, unknown where there are no trials.
// Lots are what the trials came in; none means that they widen nothing.
func rateCells(of stat.Tally, between stat.Overdispersion, lots []stat.Tally, marks ...table.Mark) []table.Cell {
	if of.N == 0 {
		return make([]table.Cell, 5)
	}
	if of.N < fewKnown {
		marks = append(slices.Clone(marks), table.FewData)
	}
	plain := stat.Wilson(of.X, of.N, confidence)
	wide := stat.WilsonWide(of, between.Widening(lots), confidence)
	return []table.Cell{
		table.Rate(of.Rate()).With(marks...),
		table.Rate(plain.Low), table.Rate(plain.High), table.Rate(wide.Low), table.Rate(wide.High),
	}
}

// add adds a tally to a pool, and to the lots that it is made of.
func add(pool *stat.Tally, lots *[]stat.Tally, x, n int32) {
	if n > 0 {
		pool.X += int(x)
		pool.N += int(n)
		*lots = append(*lots, stat.Tally{X: int(x), N: int(n)})
	}
}
