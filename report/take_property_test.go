package report

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/rivo/uniseg"
	"pgregory.net/rapid"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

const benchFacts = `farm "Kestrel Hollow" season from October
variety Oldgate species "Eriobotrya japonica" use rootstock
variety Amberlight species "Eriobotrya japonica"
variety Redwing species "Eriobotrya japonica"
tree M7 variety Amberlight planted 2013
tree M8 variety Redwing planted 2005
tree M9 variety Redwing planted 2005
2026-01-01
buy 2000 liners of Oldgate as OG from "Valley Liners"
graft 20 of OG with M7 by cleft as A1 worker Ines
graft 20 of OG with M7 by veneer as A2
graft 9 limbs of M9 with M7 by bark as A3 beside
layer 9 on M7 as A4 worker Ru
2026-03-01
check A1: 9 took, 6 failed, 1 dead
check A2: 12 took, 4 failed
check A3: 4 took, 3 failed
check A4: 5 rooted, 2 failed
2026-03-02
sell 4 of A1 to Bob
`

// A bench draws a journal of a busy bench: what is worked is checked, fails,
// pushes after all, dies, is sold, comes back, is parted, joined, worked again,
// planted and counted, in any order that the book allows.
type bench struct {
	t    *rapid.T
	text string
	n    *nursery.Nursery
	day  fact.Date
	made int
}

func busyBench(t *rapid.T) *nursery.Nursery {
	b := bench{t: t, text: benchFacts, n: replayed(benchFacts), day: 739700}
	for range rapid.IntRange(3, 40).Draw(t, "entries") {
		b.entry()
	}
	return b.n
}

func (b *bench) entry() {
	b.made++
	b.day += fact.Date(rapid.IntRange(0, 40).Draw(b.t, "days"))
	name, lot := fmt.Sprintf("N%d", b.made), b.lot()
	number := rapid.IntRange(1, 4).Draw(b.t, "number")
	worker := rapid.SampledFrom([]string{"", " worker Ines", " worker Ru", " worker Ines, Ru"}).Draw(b.t, "worker")
	method := rapid.SampledFrom([]string{"cleft", "veneer", "bark"}).Draw(b.t, "method")
	sentence := rapid.SampledFrom([]string{
		b.check(lot), b.check(lot), b.check(lot), b.check(lot),
		fmt.Sprintf("fail %d of %s", number, lot),
		fmt.Sprintf("revive %d failed of %s because \"pushed\"", number, lot),
		fmt.Sprintf("return %d living of %s from Bob as %s", number, lot, name),
		fmt.Sprintf("return %d failed of %s from Bob as %s", number, lot, name),
		fmt.Sprintf("return %d dead of %s from Bob", number, lot),
		fmt.Sprintf("split %d of %s as %s", number, lot, name),
		fmt.Sprintf("split %d failed of %s as %s", number, lot, name),
		fmt.Sprintf("release %d failed of %s as %s", number, lot, name),
		fmt.Sprintf("sever %d of %s", number, lot),
		fmt.Sprintf("sever %d of %s as %s", number, lot, name),
		fmt.Sprintf("join %s, %s as %s", lot, b.lot(), name),
		fmt.Sprintf("graft %d of OG with M7 by %s as %s%s", number, method, name, worker),
		fmt.Sprintf("graft %d limbs of M9 with M7 by %s as %s beside", number, method, name),
		fmt.Sprintf("graft %d limbs of M9 with M7 by %s as %s", number, method, name),
		fmt.Sprintf("layer %d on M7 as %s%s", number, name, worker),
		fmt.Sprintf("stick %d cuttings of M8 as %s", number, name),
		fmt.Sprintf("graft %d failed of %s with M7 by %s as %s%s", number, lot, method, name, worker),
		fmt.Sprintf("graft %d of %s with M8 by %s as %s%s", number, lot, method, name, worker),
		fmt.Sprintf("graft %d waiting of %s with M8 by %s as %s", number, lot, method, name),
		fmt.Sprintf("lose %d of %s to frost", number, lot),
		fmt.Sprintf("lose %d waiting of %s to wind", number, lot),
		fmt.Sprintf("lose %s to frost", lot),
		fmt.Sprintf("cull %d of %s because \"crooked\"", number, lot),
		fmt.Sprintf("sell %d of %s to Bob", number, lot),
		fmt.Sprintf("sell %d waiting of %s to Bob", number, lot),
		fmt.Sprintf("plant %d of %s", number, lot),
	}).Draw(b.t, "sentence")
	next := b.text + b.day.String() + "\n" + sentence + "\n"
	n := replayed(next)
	for _, f := range n.Findings {
		if f.Severity == finding.Error {
			return
		}
	}
	b.text, b.n = next, n
}

func (b *bench) lot() string {
	lots := b.n.Lots[1:]
	if len(lots) == 0 {
		return "OG"
	}
	return rapid.SampledFrom(lots).Draw(b.t, "lot").Name
}

func (b *bench) check(lot string) string {
	good := "took"
	if thing, _ := b.n.Thing(lot); thing != nil {
		if l, ok := thing.(*nursery.Lot); ok && l.Batch != nil && l.Batch.Kind != nursery.GraftBatch {
			good = "rooted"
		}
	}
	count := func() int { return rapid.IntRange(1, 3).Draw(b.t, "verdicts") }
	parts := []string{fmt.Sprintf("%d %s", count(), good), fmt.Sprintf("%d failed", count()), fmt.Sprintf("%d dead", count())}
	first := rapid.IntRange(0, 2).Draw(b.t, "first")
	last := rapid.IntRange(first, 2).Draw(b.t, "last")
	return fmt.Sprintf("check %s: %s", lot, strings.Join(parts[first:last+1], ", "))
}

// Every attempt ends once: dead, withdrawn, alive on the last day, or it never
// had a verdict.
func TestEveryAttemptHasOneLife(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := busyBench(t)
		for _, l := range livesOf(n, n.Batches, n.Last) {
			sum := l.unseen
			for _, e := range l.exits() {
				if e.Died < 0 || e.Withdrawn < 0 || e.Day < 0 {
					t.Fatalf("%s: exit %+v", l.batch.Lot.Name, e)
				}
				sum += e.Died + e.Withdrawn
			}
			if sum != int(l.batch.Made) {
				t.Fatalf("%s: of %d attempts %d have a life: %+v", l.batch.Lot.Name, l.batch.Made, sum, *l)
			}
			for _, w := range l.watches() {
				if w.FirstDead <= w.LastAlive && w.Count > 0 {
					t.Fatalf("%s: alive on day %d and dead by day %d", l.batch.Lot.Name, w.LastAlive, w.FirstDead)
				}
			}
		}
	})
}

// Whatever the rows are parted by, they add up to all; attempts are known, left
// or waiting; and no share is beyond its limits.
func TestTakeAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := busyBench(t)
		o := Options{
			AsAt:     n.Last,
			Kind:     rapid.SampledFrom([]nursery.BatchKind{nursery.GraftBatch, nursery.LayerBatch, nursery.CuttingBatch}).Draw(t, "kind"),
			Attempts: rapid.SampledFrom([]Attempts{First, Again, Every}).Draw(t, "attempts"),
			By:       rapid.SliceOfNDistinct(rapid.SampledFrom(dimensionNames()), 1, 3, rapid.ID[string]).Draw(t, "by"),
		}
		doc, err := buildTake(n, o)
		if err != nil {
			t.Fatal(err)
		}
		rows, total := asMaps(t, doc)
		for _, name := range []string{"lots", "attempts", "known", "took", "failed", "left", "waiting", "late"} {
			sum := 0.0
			for _, row := range rows {
				sum += row[name].(float64)
			}
			if total != nil && sum != total[name].(float64) {
				t.Fatalf("%s: rows add up to %v, the total is %v", name, sum, total[name])
			}
		}
		for _, row := range rows {
			number := func(name string) float64 {
				if x, ok := row[name].(float64); ok {
					return x
				}
				return math.NaN()
			}
			if number("attempts") != number("known")+number("left")+number("waiting") || number("known") != number("took")+number("failed") {
				t.Fatalf("attempts do not add up: %v", row)
			}
			order := []string{"bound_low", "rate", "bound_high"}
			for _, end := range [][2]string{{"wide_low", "low"}, {"low", "rate"}, {"rate", "high"}, {"high", "wide_high"}, {order[0], order[1]}, {order[1], order[2]}} {
				if low, high := number(end[0]), number(end[1]); low > high+1e-12 {
					t.Fatalf("%s %v is above %s %v: %v", end[0], low, end[1], high, row)
				}
			}
		}
	})
}

func asMaps(t *rapid.T, doc *table.Doc) (rows []map[string]any, total map[string]any) {
	var b bytes.Buffer
	if err := table.WriteJSON(&b, *doc); err != nil {
		t.Fatal(err)
	}
	var out struct {
		Rows  []map[string]any
		Total map[string]any `json:"rows_total"`
	}
	if err := json.Unmarshal(b.Bytes(), &out); err != nil {
		t.Fatal(err)
	}
	return out.Rows, out.Total
}

// Whatever is asked of whatever journal, there is an answer that fits 80 columns.
func TestAnswersFit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := busyBench(t)
		r := rapid.SampledFrom([]*Report{take, factors, survival, chart}).Draw(t, "report")
		o := Options{
			AsAt:     n.Last,
			Kind:     rapid.SampledFrom([]nursery.BatchKind{nursery.GraftBatch, nursery.LayerBatch, nursery.CuttingBatch, nursery.SeedBatch}).Draw(t, "kind"),
			Attempts: rapid.SampledFrom([]Attempts{First, Again, Every}).Draw(t, "attempts"),
			By:       rapid.SliceOfNDistinct(rapid.SampledFrom(r.By), 0, 3, rapid.ID[string]).Draw(t, "by"),
			Step:     rapid.SampledFrom([]Step{FitStep, Week, Month}).Draw(t, "step"),
		}
		if len(o.By) > 1 && r == factors && rapid.Bool().Draw(t, "interaction") {
			o.Interactions = [][2]string{{o.By[0], o.By[1]}}
			o.Pairs = o.By[:1]
		}
		doc, err := r.Build(n, o)
		if err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := table.WriteText(&b, *doc, table.TextOptions{}); err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(b.String()) {
			if uniseg.StringWidth(strings.TrimSuffix(line, "\n")) > 80 {
				t.Fatalf("too wide: %s", line)
			}
		}
		if s := b.String(); strings.Contains(s, "NaN") || strings.Contains(s, "%!") {
			t.Fatalf("not said in words:\n%s", s)
		}
	})
}
