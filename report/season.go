package report

import (
	"cmp"
	"slices"

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
	if len(o.Periods) == 0 {
		o.Periods = []Period{seasonPeriod(n, lastSeason(n))}
	}
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
