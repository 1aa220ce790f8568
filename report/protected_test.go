package report

import (
	"slices"
	"strings"
	"testing"
)

// Whoever propagates, plans or labels a protected variety is sent to the holder
// of its right, as long as the right lasts.
func TestProtectedVarietiesAreAMatterOfTheirHolder(t *testing.T) {
	const begun = `farm "F" currency EUR
variety Q species "Cydonia oblonga" use rootstock
variety Latelight species "Eriobotrya japonica" protected until `
	const done = ` by "right 7" licence "KH-3" for 50
tree L1 variety Latelight planted 2016
2026-01-05
buy 40 liners of Q as Q26 from Ada
2026-03-02
graft 30 of Q26 with L1 by cleft as LL26
2026-04-01
check LL26: 20 took, 5 failed, 5 dead
2026-09-01
sell 2 of LL26 to Bob at 20 each
`
	const asks = "Latelight is protected until 31 December 2041, and the licence KH-3 is for 50: ask the holder of the right before it is propagated, sold or given away."
	for _, right := range []struct {
		until string
		lasts bool
	}{{"2041-12-31", true}, {"2025-12-31", false}} {
		n := replayed(begun + right.until + done)
		for _, q := range []struct {
			report *Report
			Options
		}{
			{season, Options{}},
			{label, Options{Name: "LL26"}},
			{plan, Options{Want: Want{Count: 10, Variety: "Latelight", By: n.Last + 700}, WhatIf: []Supposition{{"stock", 0.9}, {"sale", 0.9}, {"again", 0.5}}}},
		} {
			q.AsAt = n.Last
			doc, err := q.report.Build(n, q.Options)
			if err != nil {
				t.Fatal(err)
			}
			if said := slices.Contains(doc.Cautions, asks); said != right.lasts {
				t.Errorf("%s, protected until %s: the cautions are\n%s", doc.Name, right.until, strings.Join(doc.Cautions, "\n"))
			}
		}
	}
}
