package report

import (
	"cmp"
	"slices"
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/money"
	"github.com/budstick/budstick/report/table"
)

var stock = &Report{
	Name:    "stock",
	Summary: "what stands where, lot by lot and in what state",
	Long: `Every plant on hand on the day, by lot and state, with its place, pot and age. Limbs of standing trees are no plants
and are left out; what still hangs on a mother is listed as attached or waiting. Trees that are followed on their own
are counted below. The cost is what the plants carry on the average of their lot, as profit reckons it.`,
	Example: "--as-at 2026-10-09 --variety Amberlight",
	Takes:   Filters,
	Build:   buildStock,
}

func buildStock(n *nursery.Nursery, o Options) (*table.Doc, error) {
	if err := held(n, o.Filters); err != nil {
		return nil, err
	}
	return stockReport(n, o, stockAtCost(n, o)), nil
}

// stockReport is what stands, with its costs.
func stockReport(n *nursery.Nursery, o Options, costs stockCost) *table.Doc {
	doc := heading(n, o, "stock", "Plants on hand", table.NoBasis)
	rows := table.Table{Name: "rows", Title: "Lots", Columns: []table.Column{
		{Name: "lot", Kind: table.KindText, Group: true},
		{Name: "variety", Kind: table.KindText},
		{Name: "stock", Heading: "on", Kind: table.KindText, Spare: 2},
		{Name: "state", Kind: table.KindText},
		{Name: "place", Kind: table.KindText, Spare: 1},
		{Name: "pot", Kind: table.KindText, Spare: 3},
		{Name: "age_days", Heading: "days", Kind: table.KindDays, Spare: 4},
		{Name: "on_hand", Heading: "plants", Kind: table.KindCount},
		costs.column(),
	}}
	total := 0
	var parts []money.Amount
	for _, l := range standing(n, o.Filters) {
		for s := fact.Waiting; s < fact.States; s++ {
			if l.On[s] == 0 {
				continue
			}
			total += int(l.On[s])
			rows.Rows = append(rows.Rows, stockRow(l, s, o.AsAt))
			parts = append(parts, costs.part(l, s))
		}
	}
	cells, sum := costs.cells(parts)
	for i, cell := range cells {
		rows.Rows[i] = append(rows.Rows[i], cell)
	}
	rows.Total = make([]table.Cell, len(rows.Columns))
	rows.Total[0], rows.Total[len(rows.Total)-2], rows.Total[len(rows.Total)-1] = table.Text("all"), table.Count(total), sum
	if costs.refused != "" {
		doc.Notes = append(doc.Notes, "Cost is left out. "+strings.ReplaceAll(costs.refused, "\n", " "))
	}
	doc.Body = []table.Block{rows}
	if trees := treesStanding(n, o.Filters); len(trees.Rows) > 0 {
		doc.Body = append(doc.Body, trees)
	}
	return doc
}

func stockRow(l *nursery.Lot, s fact.State, day fact.Date) []table.Cell {
	plants := table.Count(l.On[s])
	if l.About {
		plants = plants.With(table.Estimated)
	}
	on := table.Unknown()
	if below := belowInState(l, s); len(below) > 0 {
		on = table.Text(below[len(below)-1].String())
		if l.MixedBelow {
			on = on.With(table.Mixed)
		}
	}
	return []table.Cell{
		table.Text(l.Name), table.Text(calledInState(l, s)), on, table.Text(s.String()),
		textOrUnknown(placeName(l.Place)), textOrUnknown(l.Pot.String()), table.Days(day - l.Day), plants,
	}
}

// calledInState is what plants of a lot are: those whose top failed are the
// stocks that were worked, whatever was set on them.
func calledInState(l *nursery.Lot, s fact.State) string {
	if s == fact.Failed && l.Grafted() {
		left, _ := l.Stump()
		if len(left) == 1 {
			return "plain stock, " + left[0].String()
		}
		return "stock, " + left[0].String()
	}
	return l.Top.String()
}

// belowInState is what plants of a lot stand on, from the union down.
func belowInState(l *nursery.Lot, s fact.State) []nursery.Identity {
	if s == fact.Failed && l.Grafted() {
		left, _ := l.Stump()
		return left[1:]
	}
	return l.Below
}

func placeName(p *nursery.Place) string {
	if p == nil {
		return ""
	}
	return p.Name
}

func textOrUnknown(s string) table.Cell {
	if s == "" {
		return table.Unknown()
	}
	return table.Text(s)
}

// standing are the lots with plants on hand that the filters let through, in
// the order of their names.
func standing(n *nursery.Nursery, filters []table.Filter) []*nursery.Lot {
	var lots []*nursery.Lot
	for _, l := range n.Lots {
		if l.Plants() > 0 && !l.Limbs && lotPasses(n, l, filters) {
			lots = append(lots, l)
		}
	}
	slices.SortFunc(lots, func(a, b *nursery.Lot) int { return cmp.Compare(a.Name, b.Name) })
	return lots
}

func treesStanding(n *nursery.Nursery, filters []table.Filter) table.Table {
	t := table.Table{Name: "trees", Title: "Trees", Columns: []table.Column{
		{Name: "variety", Kind: table.KindText, Group: true},
		{Name: "trees", Kind: table.KindCount},
	}}
	count := map[string]int{}
	for _, tree := range n.Trees {
		if tree.Standing() && treePasses(tree, filters) {
			count[tree.Identity().String()]++
		}
	}
	names := make([]string, 0, len(count))
	for name := range count {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		t.Rows = append(t.Rows, []table.Cell{table.Text(name), table.Count(count[name])})
	}
	return t
}
