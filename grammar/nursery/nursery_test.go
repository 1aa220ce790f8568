package nursery

import (
	"strings"
	"testing"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/fact"
)

func onDay(t *testing.T, s string) fact.Date {
	t.Helper()
	d, ok := fact.ParseDate(s)
	if !ok {
		t.Fatalf("%q is no day", s)
	}
	return d
}

// A season is named by the year it ends in: from October, 2026 is 2025-10-01 to
// 2026-09-30.
func TestSeason(t *testing.T) {
	n := Replay([]*entry.Page{read("a.bud", "farm \"Kestrel Hollow\" season from October\n2025-11-04\nnote \"frost\"\n")}, 0)
	for _, year := range []int{0, 2026} { // 0: the one of the last day
		if s := n.Season(year); s.First != onDay(t, "2025-10-01") || s.Last != onDay(t, "2026-09-30") {
			t.Errorf("season %d is %s to %s", year, s.First, s.Last)
		}
	}
	n = Replay(nil, 0)
	if s := n.Season(2026); s.First != onDay(t, "2026-01-01") || s.Last != onDay(t, "2026-12-31") {
		t.Errorf("without a farm, season 2026 is %s to %s", s.First, s.Last)
	}
}

// The nearest thing's limit counts, what the journal declares before what is
// shipped, from the day it is declared on.
func TestLimit(t *testing.T) {
	n := Replay([]*entry.Page{read("a.bud", `limit old-wood 11 days for Eriobotrya
limit old-wood 2 weeks for "Eriobotrya japonica"
2026-01-01
limit old-wood 2 months for Amberlight
2026-02-01
limit old-wood 40 days
`)}, 0)
	for _, f := range n.Findings {
		t.Error(f.Message)
	}
	for _, c := range []struct {
		day  string
		of   []string
		want fact.Date
	}{
		{"2026-03-01", []string{"Amberlight", "Eriobotrya japonica"}, 60},
		{"2025-12-31", []string{"Amberlight", "Eriobotrya japonica"}, 14},
		{"2026-03-01", []string{"Tern", "eriobotrya Japonica"}, 14},
		{"2026-03-01", []string{"", "Eriobotrya deflexa"}, 11},
		{"2026-03-01", []string{"Malus domestica"}, 40},
		{"2026-03-01", nil, 40},
	} {
		l, ok := n.Limit("old-wood", onDay(t, c.day), c.of...)
		if !ok || l.Days() != c.want || l.Declared == nil {
			t.Errorf("on %s, old-wood of %v is %s, want %d days", c.day, c.of, l, c.want)
		}
	}
	if l, ok := n.Limit("old-wood", onDay(t, "2025-12-31")); !ok || l.Declared != nil || !strings.Contains(l.Mark, "rule of thumb") {
		t.Errorf("shipped: %v %v", l, ok)
	}
	if _, ok := n.Limit("no such limit", 1); ok {
		t.Error("there is a limit of which nobody knows")
	}
}

// The audit finds each kind of sum that does not hold.
func TestAuditFinds(t *testing.T) {
	const text = `variety Amberlight species "Eriobotrya japonica"
tree M7 variety Amberlight
2026-03-02
buy 9 liners of Amberlight as Q
graft 5 of Q with M7 by cleft as A
`
	for name, spoil := range map[string]func(q, a *Lot){
		"a plant too many":       func(q, _ *Lot) { q.On[fact.Living]++ },
		"a plant below nothing":  func(q, _ *Lot) { q.On[fact.Failed], q.On[fact.Living] = -1, 5 },
		"an exit below nothing":  func(q, _ *Lot) { q.Out[fact.Sold], q.Out[fact.Lost] = -1, 1 },
		"more back than sold":    func(q, _ *Lot) { q.Returned = 1 },
		"bare without a plant":   func(_, a *Lot) { a.Bare = 1 },
		"late without a plant":   func(_, a *Lot) { a.late = 1 },
		"hangs on nothing":       func(_, a *Lot) { a.On[fact.Waiting], a.On[fact.Attached] = 4, 1 },
		"limbs of nothing":       func(_, a *Lot) { a.Limbs = true },
		"an attempt too many":    func(_, a *Lot) { a.Batch.Made++ },
		"dead but not failed":    func(_, a *Lot) { a.Batch.Dead = 1 },
		"waits without attempts": func(_, a *Lot) { a.Batch.Made, a.Batch = 0, nil },
		"living scions not set":  func(_, a *Lot) { a.Batch.ScionsAlive = 1 },
	} {
		n := Replay([]*entry.Page{read("a.bud", text)}, 0)
		if err := n.Audit(); err != nil {
			t.Fatal(err)
		}
		spoil(n.Lots[0], n.Lots[1])
		if n.Audit() == nil {
			t.Errorf("%s: not found", name)
		}
	}
}

func TestCrew(t *testing.T) {
	n := Replay([]*entry.Page{read("a.bud", `variety Amberlight species "Eriobotrya japonica"
tree M7 variety Amberlight
2026-03-02
stick 4 cuttings of M7 as C1 worker Ru 1 h, Ines 20 min worker Ru 5 min
stick 4 cuttings of M7 as C2 worker Ru
stick 4 cuttings of M7 as C3
`)}, 0)
	for i, want := range []string{"Ines + Ru", "Ru", ""} {
		if got := n.Batches[i].Crew(); got != want {
			t.Errorf("crew %q, want %q", got, want)
		}
	}
}
