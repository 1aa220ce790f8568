package report

import (
	"slices"
	"testing"

	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

// One figure stands in several places of the book, and is the same in each: as
// each chapter counts for itself, a reader who lays two beside each other must
// not find two truths.
func TestBookAgreesWithItself(t *testing.T) {
	n := nursery.Replay(kestrelPages(t), 0)
	for _, year := range []int{2024, 2025, 2026} {
		doc, err := season.Build(n, Options{AsAt: n.Last, Periods: []Period{seasonPeriod(n, year)}, Findings: n.Findings})
		if err != nil {
			t.Fatal(err)
		}
		total := func(chapter, name, column string) string {
			for _, c := range doc.Chapters {
				for _, tab := range c.Tables() {
					at := slices.IndexFunc(tab.Columns, func(c table.Column) bool { return c.Name == column })
					if c.Name == chapter && tab.Name == name && at >= 0 && tab.Total != nil {
						return tab.Total[at].Plain()
					}
				}
			}
			return ""
		}
		for _, item := range doc.Body[0].(table.Facts).Items {
			value := item.Value.(table.Cell).Plain()
			for _, at := range map[string][][3]string{
				"sold":    {{"origins", "rows", "plants"}, {"profit", "rows", "sold"}},
				"lost":    {{"losses", "rows", "plants"}},
				"on_hand": {{"profit", "rows", "on_hand"}, {"stock", "rows", "on_hand"}},
			}[item.Name] {
				if got := total(at[0], at[1], at[2]); got != value {
					t.Errorf("%d: %s is %s on the first page and %q in %s", year, item.Name, value, got, at[0])
				}
			}
		}
		tried := doc.Body[1].(table.Table)
		for i, row := range picked(t, doc, "tried", []string{"made", "known", "took", "wide_low", "wide_high"}) {
			title := map[string]string{"grafts": "Take of grafts, by method", "layers": "Rooting of layers, by variety",
				"cuttings": "Rooting of cuttings, by variety", "seed lots": ""}[tried.Rows[i][0].Plain()]
			at := slices.IndexFunc(doc.Chapters, func(c table.Doc) bool { return c.Title == title })
			if at < 0 {
				continue
			}
			rows := doc.Chapters[at].Tables()[0]
			if rows.Total == nil {
				continue // one group is no table of several
			}
			for j, name := range []string{"made", "known", "took", "wide_low", "wide_high"} {
				column := slices.IndexFunc(rows.Columns, func(c table.Column) bool { return c.Name == name || name == "made" && c.Name == "attempts" })
				if column < 0 || rows.Total[column].Plain() != row[j] {
					t.Errorf("%d: %s: %s is %s on the first page, and not so in the chapter", year, title, name, row[j])
				}
			}
		}
	}
}
