package report

import (
	"cmp"
	"maps"
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

// fewRows is how many rows the page gives to a question that a chapter answers
// in full.
const fewRows = 6

// page is the season on a page.
func (b *book) page(found []finding.Finding) []table.Block {
	blocks := []table.Block{b.figures(), b.tried()}
	if methods := b.methods(); len(methods.Rows) > 1 {
		blocks = append(blocks, methods)
	}
	return append(blocks, b.causes(), findingCounts(found))
}

// figures are the season in single numbers.
func (b *book) figures() table.Facts {
	gone := map[fact.How]int{}
	for i := range b.n.Moves {
		if m := &b.n.Moves[i]; m.To == nil && !m.From.Limbs && b.period.Contains(m.Entry.Date) {
			gone[m.How] += int(m.N)
		}
	}
	lost := 0
	for _, plants := range b.lost {
		lost += plants
	}
	f := table.Facts{Title: "The season in figures", Items: []table.Fact{
		{Name: "sold", Heading: "plants sold", Value: table.Count(gone[fact.Sold])},
		{Name: "given", Heading: "given away", Value: table.Count(gone[fact.Given])},
		{Name: "planted_out", Heading: "planted out", Value: table.Count(gone[fact.PlantedOut])},
		{Name: "lost", Heading: "lost, culled or missing, seed and cuttings too", Value: table.Count(lost)},
	}}
	for _, sum := range []struct{ chapter, table, column, heading string }{
		{"stock", "rows", "on_hand", "on hand at the end"},
		{"profit", "enterprises", "revenue", "revenue, fruit and wood too"},
		{"profit", "enterprises", "result", "left when costs are paid, plants at cost"},
	} {
		if total, ok := b.total(sum.chapter, sum.table, sum.column); ok {
			f.Items = append(f.Items, table.Fact{Name: sum.column, Heading: sum.heading, Value: total})
		}
	}
	return f
}

// tried is what was tried in the season, kind by kind.
func (b *book) tried() table.Table {
	t := table.Table{Name: "tried", Title: "What was tried", Columns: append([]table.Column{
		{Name: "kind", Kind: table.KindText, Group: true},
		{Name: "made", Kind: table.KindCount},
		{Name: "known", Kind: table.KindCount},
		{Name: "took", Heading: "succeeded", Kind: table.KindCount},
	}, rateColumns("", "share")...)}
	for kind := nursery.GraftBatch; kind <= nursery.SeedBatch; kind++ {
		o := b.o
		o.Kind = kind
		batches := chosen(b.n, o)
		if len(batches) == 0 {
			continue
		}
		// Reckoned as in the chapter, or the same attempts had two intervals.
		take := newTakeTable(b.n, o, takenBy(kind), batches)
		sum := take.all
		cells := []table.Cell{table.Text(wordings[kind].many), table.Count(sum.made), table.Count(sum.outcome.N), table.Count(sum.outcome.X)}
		t.Add(append(cells, rateCells(sum.outcome, take.between, sum.perLot, sum.marks()...)...)...)
	}
	if slices.ContainsFunc(b.n.Batches, func(x *nursery.Batch) bool { return x.Ordinal > 1 && b.period.Contains(x.Day) }) {
		t.Notes = append(t.Notes, firstOnly)
	}
	return t
}

// methods are those by which most grafts were made.
func (b *book) methods() table.Table {
	o := b.o
	o.By = takenBy(nursery.GraftBatch)
	take := newTakeTable(b.n, o, o.By, chosen(b.n, o))
	order := make([]int, len(take.groups))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(take.sums[j].made, take.sums[i].made) })
	t := table.Table{Name: "methods", Title: "Grafts, by method", Columns: append(groupColumns(o.By), append([]table.Column{
		{Name: "made", Kind: table.KindCount},
		{Name: "known", Kind: table.KindCount},
		{Name: "took", Kind: table.KindCount},
	}, rateColumns("", "take")...)...)}
	for _, i := range order[:min(len(order), fewRows)] {
		sum := take.sums[i]
		row := append(take.groups[i].cells(), table.Count(sum.made), table.Count(sum.outcome.N), table.Count(sum.outcome.X))
		t.Add(append(row, rateCells(sum.outcome, take.between, sum.perLot, sum.marks()...)...)...)
	}
	if len(order) > fewRows {
		t.Notes = []string{"Those by which most were made; the others are in the chapter."}
	}
	return t
}

// causes are what most plants were lost to.
func (b *book) causes() table.Table {
	t := table.Table{Name: "causes", Title: "Lost to", Columns: []table.Column{
		{Name: "cause", Kind: table.KindText, Group: true},
		{Name: "plants", Kind: table.KindCount},
	}}
	of := map[string]int{}
	for k, plants := range b.lost {
		of[cmp.Or(k.cause, k.how)] += plants
	}
	names := slices.SortedFunc(maps.Keys(of), func(x, y string) int { return cmp.Or(cmp.Compare(of[y], of[x]), cmp.Compare(x, y)) })
	all, others := 0, 0
	for i, name := range names {
		all += of[name]
		if i < fewRows {
			t.Add(table.Text(name), table.Count(of[name]))
		} else {
			others += of[name]
		}
	}
	if others != 0 {
		t.Add(table.Text("anything else"), table.Count(others))
	}
	if len(names) > 1 {
		t.Total = []table.Cell{table.Text("all"), table.Count(all)}
	}
	return t
}

// findingCounts counts what the linter has to say, the gravest first.
func findingCounts(list []finding.Finding) table.Table {
	t := table.Table{Name: "findings", Title: "What the linter doubts", Columns: []table.Column{
		{Name: "rule", Kind: table.KindText, Group: true},
		{Name: "severity", Kind: table.KindText},
		{Name: "times", Kind: table.KindCount},
	}}
	type key struct {
		severity finding.Severity
		rule     string
	}
	count := map[key]int{}
	for _, f := range list {
		count[key{f.Severity, f.Rule}]++
	}
	keys := slices.SortedFunc(maps.Keys(count), func(a, b key) int {
		return cmp.Or(cmp.Compare(b.severity, a.severity), cmp.Compare(a.rule, b.rule))
	})
	for _, k := range keys {
		t.Add(table.Text(k.rule), table.Text(k.severity.String()), table.Count(count[k]))
	}
	return t
}
