package report

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/budstick/budstick/report/table"
)

// Ten thousand lots, each of wood of its own, are as many levels: every report
// answers, and its sentences stay short.
func TestTenThousandLevels(t *testing.T) {
	const lots = 10_000
	var b strings.Builder
	b.WriteString(`variety Oldgate species "Eriobotrya japonica" use rootstock
variety Amberlight species "Eriobotrya japonica"
tree M7 variety Amberlight planted 2013
2026-03-02
buy 200000 liners of Oldgate as OG from "Valley Liners"
`)
	for i := range lots {
		fmt.Fprintf(&b, "cut 20 scions from M7 as W%d\ngraft 12 of OG with W%[1]d by %[2]s as L%[1]d worker %[3]s\n",
			i, []string{"cleft", "veneer"}[i%2], []string{"Ines", "Ru", "Teo"}[i%3])
	}
	b.WriteString("2026-04-20\n")
	for i := range lots {
		took := 2 + i*7%11 // 2 to 12, whatever the method
		fmt.Fprintf(&b, "check L%d: %d took", i, took)
		if failed := 12 - took; failed > 0 {
			fmt.Fprintf(&b, ", %d failed", failed)
		}
		b.WriteString("\n")
	}
	n := sound(t, b.String())
	for question, rows := range map[string]int{
		"take by=lot": lots, "survival by=lot": lots, "chart by=lot": 0, "factors on=wood,method": 1,
	} {
		t.Run(question, func(t *testing.T) {
			doc, err := build(t, n, question)
			if err != nil {
				t.Fatal(err)
			}
			tables := doc.Tables()
			if got := len(tables[0].Rows); got != rows {
				t.Errorf("%d rows in the first table, want %d", got, rows)
			}
			if err := doc.Check(); err != nil {
				t.Error(err)
			}
			for _, note := range allNotes(*doc) {
				if len(note) > 700 {
					t.Errorf("a note of %d bytes: %.100s…", len(note), note)
				}
			}
		})
	}
	// The methods are alike by how the journal was made.
	doc, err := build(t, n, "factors on=method,worker")
	if err != nil {
		t.Fatal(err)
	}
	if note := allNotes(*doc)[0]; !strings.HasPrefix(note, "Method. Likely: nothing yet.") {
		t.Errorf("the methods are alike, but: %s", note)
	}
}

// allNotes are the notes of a report and of its tables.
func allNotes(d table.Doc) []string {
	var notes []string
	for _, tab := range d.Tables() {
		notes = append(notes, tab.Notes...)
	}
	return slices.Concat(notes, d.Notes, d.Cautions)
}
