package report

import (
	"maps"
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

// lossDiff sets what was lost side by side.
func lossDiff(a, b side) table.Table {
	t := table.Table{Name: "losses", Title: "What was lost", Columns: []table.Column{
		{Name: "how", Kind: table.KindText, Group: true},
		{Name: "cause", Kind: table.KindText, Group: true},
		{Name: "stage", Kind: table.KindText, Group: true},
		{Name: "plants_a", Heading: a.short, Kind: table.KindCount},
		{Name: "plants_b", Heading: b.short, Kind: table.KindCount},
		{Name: "change", Kind: table.KindCount},
	}}
	first, second := lostIn(a.n, a.options.Period()), lostIn(b.n, b.options.Period())
	both := maps.Clone(first)
	maps.Copy(both, second)
	var sumA, sumB int
	for _, k := range slices.SortedFunc(maps.Keys(both), compareLosses) {
		t.Add(table.Text(k.how), textOrUnknown(k.cause), table.Text(k.stage.String()), table.Count(first[k]), table.Count(second[k]), table.Count(second[k]-first[k]))
		sumA, sumB = sumA+first[k], sumB+second[k]
	}
	if len(both) > 1 {
		t.Total = []table.Cell{table.Text("all"), table.Unknown(), table.Unknown(), table.Count(sumA), table.Count(sumB), table.Count(sumB - sumA)}
	}
	return t
}

// newAndGone lists the mothers, methods, hands and buyers of one side alone.
func newAndGone(a, b side) table.Table {
	t := table.Table{Name: "new_and_gone", Title: "New, and gone", Columns: []table.Column{
		{Name: "what", Kind: table.KindText, Group: true},
		{Name: "name", Kind: table.KindText, Group: true},
		{Name: "is", Kind: table.KindText},
		{Name: "count_a", Heading: a.short, Kind: table.KindCount},
		{Name: "count_b", Heading: b.short, Kind: table.KindCount},
	}, Notes: []string{"Attempts of mothers, methods and hands; plants bought by buyers."}}
	first, second := partsOf(a), partsOf(b)
	for _, what := range []string{"mother", "method", "hand", "buyer"} {
		both := maps.Clone(first[what])
		maps.Copy(both, second[what])
		for _, name := range slices.SortedFunc(maps.Keys(both), naturally) {
			was, is := first[what][name], second[what][name]
			switch {
			case was == 0:
				t.Add(table.Text(what), table.Text(name), table.Text("new"), table.Count(was), table.Count(is))
			case is == 0:
				t.Add(table.Text(what), table.Text(name), table.Text("gone"), table.Count(was), table.Count(is))
			}
		}
	}
	return t
}

// partsOf counts, for each kind of part, how much each took part in a side.
func partsOf(s side) map[string]map[string]int {
	parts := map[string]map[string]int{"mother": {}, "method": {}, "hand": {}, "buyer": {}}
	count := func(what, name string, n int32) {
		if name != "" {
			parts[what][name] += int(n)
		}
	}
	period := s.options.Period()
	for _, b := range s.n.Batches {
		if !period.Contains(b.Day) {
			continue
		}
		for _, mother := range mothersOf(b) {
			count("mother", wholeTree(s.n, mother), b.Made)
		}
		if b.Method != nil {
			count("method", b.Method.Name, b.Made)
		}
		for _, w := range b.Entry.Workers() {
			if known, ok := s.n.Worker(w.Worker.Text); ok {
				count("hand", known.Name, b.Made)
			}
		}
	}
	for i := range s.n.Moves {
		m := &s.n.Moves[i]
		if f, ok := m.Entry.Effect.(*fact.Leave); ok && m.How == fact.Sold && period.Contains(m.Entry.Date) {
			if p, ok := s.n.Party(f.To.Text); ok {
				count("buyer", p.Name, m.N)
			}
		}
	}
	return parts
}

// wholeTree is the tree of a limb, if they are of one variety: limbs that were
// named later are no new mothers.
func wholeTree(n *nursery.Nursery, name string) string {
	t, _ := n.Thing(name)
	if l, ok := t.(*nursery.Limb); ok && l.Variety == l.Tree.Variety {
		return l.Tree.Name
	}
	return name
}
