package report

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

// mostPlanned is for how many varieties the book makes a plan: those of which
// most were sold.
const mostPlanned = 8

// next is the chapter of the next season: what is needed to sell as many trees
// again.
func (b *book) next() ([]table.Doc, error) {
	doc := table.Doc{Name: "next", Title: "If as many are to be sold next season", AsAt: b.o.AsAt.String()}
	t := table.Table{Name: "rows", Columns: []table.Column{
		{Name: "variety", Kind: table.KindText, Group: true},
		{Name: "want", Heading: "trees", Kind: table.KindCount},
		{Name: "begin", Heading: "begin with", Kind: table.KindText},
		{Name: "count", Heading: "at least", Kind: table.KindCount},
		{Name: "begin_by", Heading: "by", Kind: table.KindDate},
		{Name: "work", Heading: "to work", Kind: table.KindCount},
		{Name: "work_by", Heading: "by", Kind: table.KindDate},
		{Name: "scions", Kind: table.KindCount},
		{Name: "rests_on", Heading: "least known", Kind: table.KindText},
	}}
	by := b.n.Season(fact.SeasonOf(max(b.period.First, 1), b.n.SeasonFrom()).Year() + 1).Last
	var unplanned []string
	for _, v := range b.bestSold() {
		p, err := b.planFor(v.variety, v.plants, by)
		if err != nil {
			unplanned = append(unplanned, v.variety.Name)
			continue
		}
		t.Add(p...)
	}
	doc.Body = []table.Block{t}
	doc.Notes = []string{fmt.Sprintf("As many trees of each variety as were sold in %s, ready by %s in 90 seasons of 100. budstick plan --want N --variety NAME tells how each count comes about.",
		b.period.Name, by.Long())}
	if len(unplanned) > 0 {
		doc.Notes = append(doc.Notes, "Too little is recorded for a plan of "+someOf(unplanned)+".")
	}
	if by <= b.o.AsAt {
		doc.Body, doc.Notes = nil, []string{"That season is over too, so there is nothing to plan."}
	}
	return []table.Doc{doc}, nil
}

// soldOf is how many trees of a variety were sold.
type soldOf struct {
	variety *nursery.Variety
	plants  int
}

// bestSold are the varieties of which most trees were sold, rootstocks and
// seedlings apart.
func (b *book) bestSold() []soldOf {
	count := map[*nursery.Variety]int{}
	for i := range b.n.Moves {
		m := &b.n.Moves[i]
		if m.How == fact.Sold && m.FromState == fact.Living && b.period.Contains(m.Entry.Date) && isFinished(m.From) && !m.From.Top.Seedling && m.From.Top.Variety != nil {
			count[m.From.Top.Variety] += int(m.N)
		}
	}
	var list []soldOf
	for _, v := range b.n.Varieties {
		if count[v] > 0 {
			list = append(list, soldOf{v, count[v]})
		}
	}
	slices.SortStableFunc(list, func(x, y soldOf) int { return cmp.Compare(y.plants, x.plants) })
	return list[:min(len(list), mostPlanned)]
}

// tooLate marks a day that is past.
var tooLate = table.Mark{Name: "too_late", Note: "too late for that season, by the farm's own days: plan for what stands, or for the season after"}

// planFor is the row of one variety.
func (b *book) planFor(v *nursery.Variety, plants int, by fact.Date) ([]table.Cell, error) {
	w, err := wayOf(b.n, v)
	if err != nil {
		return nil, err
	}
	o := Options{AsAt: b.o.AsAt, Want: Want{Count: plants, Variety: v.Name, By: by, Sure: usualAssurance}}
	s, err := newScheme(w, o.Want, o)
	if err != nil {
		return nil, err
	}
	p := &planDoc{scheme: s, asAt: b.o.AsAt, days: w.days(by, b.o.AsAt)}
	steps := p.steps()
	day := func(s step) table.Cell {
		cell := table.Date(s.by.String())
		if p.late(s) {
			cell = cell.With(tooLate)
		}
		return cell
	}
	work := day(steps[slices.IndexFunc(steps, func(s step) bool { return s.by == p.days.work && !s.stocks })])
	scions, least := table.Unknown(), table.Unknown()
	if s.stock != nil {
		scions = table.Count(s.scions())
	}
	if l, ok := weakest(s.links()); ok {
		least = table.Text(l.name + " " + l.restsOn())
	}
	return []table.Cell{
		table.Text(v.Name), table.Count(plants), table.Text(steps[0].what), table.Count(steps[0].count(s)), day(steps[0]),
		table.Count(s.works()), work, scions, least,
	}, nil
}

// doubts is the chapter of what is doubtful: the marked figures of the other
// chapters, and what the linter has to say.
func (b *book) doubts(found []finding.Finding) table.Doc {
	doc := table.Doc{Name: "doubts", Title: "What is doubtful"}
	marked := table.Table{Name: "figures", Title: "Figures with a mark", Columns: []table.Column{
		{Name: "doubt", Kind: table.KindText, Group: true},
		{Name: "chapter", Kind: table.KindText, Group: true},
		{Name: "figures", Kind: table.KindCount},
	}}
	type key struct{ note, chapter string }
	count := map[key]int{}
	var order []key
	for _, chapter := range b.chapters {
		for _, t := range chapter.Tables() {
			for _, row := range append(slices.Clip(t.Rows), t.Total) {
				for _, c := range row {
					for _, m := range c.Marks() {
						k := key{m.Note, chapter.Title}
						if count[k]++; count[k] == 1 {
							order = append(order, k)
						}
					}
				}
			}
		}
	}
	slices.SortStableFunc(order, func(x, y key) int { return cmp.Compare(x.note, y.note) })
	for _, k := range order {
		marked.Add(table.Text(k.note), table.Text(k.chapter), table.Count(count[k]))
	}
	if len(order) > 0 {
		doc.Body = append(doc.Body, marked)
	}
	if len(found) > 0 {
		doc.Body = append(doc.Body, findingList(found))
	}
	doc.Notes = []string{"A mark stands beside each doubtful figure in its chapter. What the linter says is of the whole journal."}
	return doc
}

// findingList is what the linter says, with where.
func findingList(found []finding.Finding) table.Table {
	t := table.Table{Name: "findings", Title: "What the linter says", Columns: []table.Column{
		{Name: "file", Kind: table.KindText},
		{Name: "line", Kind: table.KindCount},
		{Name: "severity", Kind: table.KindText},
		{Name: "message", Kind: table.KindText},
	}}
	for _, f := range found {
		file, line := table.Unknown(), table.Unknown()
		if f.File != nil {
			file, line = table.Text(f.File.Path), table.Count(f.File.Line(f.Span.Start))
		}
		t.Add(file, line, table.Text(f.Severity.String()), table.Text(f.Message))
	}
	return t
}
