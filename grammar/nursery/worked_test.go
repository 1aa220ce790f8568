package nursery

import (
	"math"
	"testing"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/source"
)

// worked is an example of the trade (common practice, no source): seed of a
// polyembryonic stock, a first graft, and a second on the stocks whose tops
// failed.
const worked = `
limit first-check 35 days
variety Greenstone species "Mangifera indica" seed polyembryonic use rootstock
variety Sundown species "Mangifera indica"
tree R3-T7 variety Sundown
2025-07-20
sow 400 seed of Greenstone as GS25
2025-09-01
check GS25: 340 up with 355 plants, 60 dead
2025-10-01
cull 30 of GS25 because "off-types and runts"
lose 15 of GS25 to damping-off
count GS25 310
pot GS25 to 1 L
2026-04-01
lose 20 of GS25 to drought
count GS25 290
2026-05-12
graft 280 of GS25 with R3-T7 by veneer as SD26 worker Ines
2026-06-16
check SD26: 210 took, 58 failed, 7 dead, 5 unsure
2026-06-17
cull 8 failed of SD26
graft 50 failed of SD26 with R3-T7 by cleft as SD26b worker Ru
2026-07-22
check SD26b: 36 took, 11 failed, 3 dead
`

func TestWorkedExample(t *testing.T) {
	n := Replay([]*entry.Page{entry.Read(source.New("worked.bud", []byte(worked)))}, 0)
	for _, f := range n.Findings {
		t.Errorf("%s: %s", f.Rule, f.Message)
	}
	if err := n.Audit(); err != nil {
		t.Error(err)
	}
	is := func(what string, got, want int32) {
		t.Helper()
		if got != want {
			t.Errorf("%s: %d, want %d", what, got, want)
		}
	}
	percent := func(what string, part, whole int32, want float64) {
		t.Helper()
		if got := math.Round(1000*float64(part)/float64(whole)) / 10; got != want {
			t.Errorf("%s: %d of %d is %.1f %%, want %.1f", what, part, whole, got, want)
		}
	}
	seed, first, again := n.Lots[0], n.Lots[1], n.Lots[2]
	is("plants that came up", seed.Entered-60, 355)
	is("seedlings left bare", seed.On[fact.Living], 10)
	percent("germination", seed.Batch.Took, seed.Batch.Made, 85)

	// Where the 280 stocks are: the two lots together.
	both := func(f func(*Lot) int32) int32 { return f(first) + f(again) }
	taken := both(func(l *Lot) int32 { return l.On[fact.Living] })
	failed := both(func(l *Lot) int32 { return l.On[fact.Failed] })
	culled := both(func(l *Lot) int32 { return l.Out[fact.Culled] })
	dead := both(func(l *Lot) int32 { return l.Out[fact.Lost] })
	unsure := both(func(l *Lot) int32 { return l.On[fact.Waiting] })
	is("taken", taken, 246)
	is("failed, the stock alive", failed, 11)
	is("culled", culled, 8)
	is("dead", dead, 10)
	is("unsure", unsure, 5)
	is("stocks", taken+failed+culled+dead+unsure, 280)

	// The 330 attempts on them, by ordinal.
	a, b := first.Batch, again.Batch
	is("first ordinal", int32(a.Ordinal), 1)
	is("second ordinal", int32(b.Ordinal), 2)
	is("attempts", a.Made+b.Made, 330)
	is("attempts that took", a.Took+b.Took, 246)
	is("attempts that failed", a.Failed+b.Failed, 79)
	is("attempts that wait", a.Waiting()+b.Waiting(), 5)
	is("attempts known", a.Known()+b.Known(), 325)

	percent("first-attempt take", a.Took, a.Known(), 76.4)
	percent("its lower bound", a.Took, a.Made-a.Left, 75.0)
	percent("its upper bound", a.Took+a.Waiting(), a.Made-a.Left, 76.8)
	is("first attempts known", a.Known(), 275)
	percent("attempt take", a.Took+b.Took, a.Known()+b.Known(), 75.7)
	percent("stock take", taken, 280, 87.9)
	percent("its upper bound", taken+unsure, 280, 89.6)
	is("re-grafts that took", b.Took, 36)
	percent("re-graft take", b.Took, b.Known(), 72.0)
}
