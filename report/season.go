package report

import (
	"cmp"
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

var season = &Report{
	Name:    "season",
	Summary: "the season on a page: what is doubtful, what took, what was lost, what stands",
	Long: `One season, named by the year in which it ends (the season of the last day, if no year is given): what the linter
doubts, the take of what was started in the season, what was lost in it and why, and what stands at its end.`,
	Example: "2026",
	Subject: OneSeason,
	Build:   buildSeason,
}

func buildSeason(n *nursery.Nursery, o Options) (*table.Doc, error) {
	doc := calendar(n, o, "season", "The season")
	doc.Body = []table.Block{doubts(o.Findings)}
	for _, kind := range []nursery.BatchKind{nursery.GraftBatch, nursery.LayerBatch, nursery.CuttingBatch, nursery.SeedBatch} {
		part := Options{AsAt: o.AsAt, Periods: o.Periods, Kind: kind, By: []string{"variety"}}
		if len(chosen(n, part)) == 0 {
			continue
		}
		chapter, err := buildTake(n, part)
		if err != nil {
			return nil, err
		}
		doc.Chapters = append(doc.Chapters, asChapter(n, chapter))
	}
	doc.Chapters = append(doc.Chapters, losses(n, o))
	stand, err := buildStock(n, Options{AsAt: o.AsAt})
	if err != nil {
		return nil, err
	}
	doc.Chapters = append(doc.Chapters, asChapter(n, stand))
	return doc, nil
}

// asChapter takes the farm's name off a report that is bound into another.
func asChapter(n *nursery.Nursery, doc *table.Doc) table.Doc {
	if n.Farm != nil {
		doc.Title = doc.Title[len(n.Farm.Name.Text)+2:]
	}
	return *doc
}

// doubts counts the findings of the linter.
func doubts(list []finding.Finding) table.Table {
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
	keys := make([]key, 0, len(count))
	for k := range count {
		keys = append(keys, k)
	}
	slices.SortFunc(keys, func(a, b key) int {
		return cmp.Or(cmp.Compare(b.severity, a.severity), cmp.Compare(a.rule, b.rule))
	})
	for _, k := range keys {
		t.Rows = append(t.Rows, []table.Cell{table.Text(k.rule), table.Text(k.severity.String()), table.Count(count[k])})
	}
	return t
}

// losses are plants that died, were culled or went missing in the period, by
// cause and the state in which they went.
func losses(n *nursery.Nursery, o Options) table.Doc {
	doc := table.Doc{Name: "losses", Title: "What was lost", AsAt: o.AsAt.String(), Period: o.Period().Table(), Basis: table.Calendar}
	t := table.Table{Name: "rows", Columns: []table.Column{
		{Name: "how", Kind: table.KindText, Group: true},
		{Name: "cause", Kind: table.KindText, Group: true},
		{Name: "state", Kind: table.KindText, Group: true},
		{Name: "plants", Kind: table.KindCount},
	}}
	type key struct {
		how   string
		cause string
		state fact.State
	}
	count := map[key]int{}
	total := 0
	for i := range n.Moves {
		m := &n.Moves[i]
		how, cause := lossOf(m)
		if how == "" || m.From.Limbs || !o.Period().Contains(m.Entry.Date) {
			continue
		}
		count[key{how, cause, m.FromState}] += int(m.N)
		total += int(m.N)
	}
	keys := make([]key, 0, len(count))
	for k := range count {
		keys = append(keys, k)
	}
	slices.SortFunc(keys, func(a, b key) int {
		return cmp.Or(cmp.Compare(a.how, b.how), cmp.Compare(a.cause, b.cause), cmp.Compare(a.state, b.state))
	})
	for _, k := range keys {
		t.Rows = append(t.Rows, []table.Cell{table.Text(k.how), textOrUnknown(k.cause), table.Text(k.state.String()), table.Count(count[k])})
	}
	if len(keys) > 1 {
		t.Total = []table.Cell{table.Text("all"), table.Unknown(), table.Unknown(), table.Count(total)}
	}
	doc.Body = []table.Block{t}
	if len(keys) == 0 {
		doc.Notes = []string{"Nothing was lost, culled or found missing."}
	}
	return doc
}

// lossOf says how a move was a loss, and to what: nothing for one that was
// none.
func lossOf(m *nursery.Move) (how, cause string) {
	if m.To != nil {
		return "", ""
	}
	switch f := m.Entry.Effect.(type) {
	case *fact.Check:
		return "dead at the check", deadCause(f)
	case *fact.Leave:
		switch f.How {
		case fact.Lost:
			return "lost", f.To.Text
		case fact.Culled:
			return "culled", f.Why.Text
		}
	case *fact.Stocktake:
		return "missing at a stocktake", ""
	}
	return "", ""
}

// deadCause is the cause that a check gives for its dead, if it gives one.
func deadCause(f *fact.Check) string {
	for _, o := range f.Outcomes {
		if o.Verdict == fact.Dead && o.Cause.Given() {
			return o.Cause.Text
		}
	}
	return ""
}
