package table

import (
	"fmt"
	"math"

	"pgregory.net/rapid"
)

// docs draws reports with any text in them and every kind of block.
func docs() *rapid.Generator[Doc] {
	return rapid.Custom(func(t *rapid.T) Doc {
		d := Doc{
			Name: "any", Title: hostileText().Draw(t, "title"), AsAt: "2026-09-30",
			Basis:    rapid.SampledFrom([]Basis{NoBasis, Cohort, Calendar}).Draw(t, "basis"),
			Period:   Period{Name: hostileText().Draw(t, "period"), From: "2025-10-01"},
			Filters:  []Filter{{"variety", hostileText().Draw(t, "filter")}},
			Cautions: rapid.SliceOfN(hostileText(), 0, 2).Draw(t, "cautions"),
			Notes:    rapid.SliceOfN(hostileText(), 0, 2).Draw(t, "notes"),
		}
		for i := range rapid.IntRange(0, 3).Draw(t, "tables") {
			d.Body = append(d.Body, tables(fmt.Sprintf("rows%d", i)).Draw(t, "table"))
		}
		return d
	})
}

func tables(name string) *rapid.Generator[Table] {
	return rapid.Custom(func(t *rapid.T) Table {
		table := Table{Name: name, Title: hostileText().Draw(t, "title"), Grouped: rapid.Bool().Draw(t, "grouped")}
		for i := range rapid.IntRange(1, 7).Draw(t, "columns") {
			c := Column{
				Name:    fmt.Sprintf("c%d", i),
				Heading: hostileText().Draw(t, "heading"),
				Kind:    Kind(rapid.IntRange(int(KindText), int(KindQuantity)).Draw(t, "kind")),
				Group:   rapid.Bool().Draw(t, "group"),
				For:     rapid.SampledFrom([]Audience{Everyone, Everyone, Machines, People}).Draw(t, "for"),
				Spare:   rapid.IntRange(0, 3).Draw(t, "spare"),
			}
			if i == 0 {
				c.For = Everyone
			}
			if i > 1 && table.Columns[0].Kind == c.Kind && table.Columns[1].Kind == c.Kind {
				c.Low, c.High = "c0", "c1"
			}
			table.Columns = append(table.Columns, c)
		}
		for range rapid.IntRange(0, 5).Draw(t, "rows") {
			table.Add(rowFor(t, table.Columns)...)
		}
		if rapid.Bool().Draw(t, "total") {
			table.Total = rowFor(t, table.Columns)
		}
		return table
	})
}

func rowFor(t *rapid.T, columns []Column) []Cell {
	var row []Cell
	for _, c := range columns {
		row = append(row, cellOf(c.Kind).Draw(t, c.Name))
	}
	return row
}

// cellOf draws a cell of a kind, or an unknown one.
func cellOf(k Kind) *rapid.Generator[Cell] {
	return rapid.Custom(func(t *rapid.T) Cell {
		if rapid.IntRange(0, 5).Draw(t, "known") == 0 {
			return Unknown()
		}
		var c Cell
		x := rapid.OneOf(rapid.Float64Range(-2, 2), rapid.Float64(), rapid.SampledFrom([]float64{math.Inf(1), math.NaN()}))
		decimal := rapid.StringMatching(`-?(0|[1-9][0-9]{0,11})(\.[0-9]{1,5})?`)
		switch k {
		case KindText:
			c = Text(hostileText().Draw(t, "text"))
		case KindCount:
			c = Count(rapid.Int64().Draw(t, "count"))
		case KindDays:
			c = Days(rapid.Int().Draw(t, "days"))
		case KindRate:
			c = Rate(rapid.Float64Range(0, 1).Draw(t, "rate"))
		case KindChange:
			c = Change(rapid.Float64Range(-1, 1).Draw(t, "change"))
		case KindMoney:
			c = Money(decimal.Draw(t, "money"), "EUR")
		case KindDate:
			c = Date("2026-03-14")
		case KindNumber:
			c = Number(x.Draw(t, "number"))
		case KindPValue:
			c = PValue(rapid.Float64Range(0, 1).Draw(t, "p"))
		case KindQuantity:
			c = Quantity(decimal.Draw(t, "quantity"))
		}
		return c.With(rapid.SliceOfN(rapid.SampledFrom([]Mark{Estimated, Mixed, FewData}), 0, 2).Draw(t, "marks")...)
	})
}
