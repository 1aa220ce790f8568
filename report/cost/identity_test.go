package cost_test

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/invent"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/report/cost"
	"github.com/budstick/budstick/report/money"
)

// TestIdentity writes journals at random, good entries and bad ones, and cuts
// them anywhere: whatever stretch of time is looked at, what stood before and
// what was spent is what went out and what stands, to the last unit.
func TestIdentity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := read(wild(t))
		holds(t, n, cost.Terms{}, rapid.IntRange(1, 900).Draw(t, "cut"))
	})
}

// TestIdentityOfSeasons cuts plausible journals at every season, under every
// base of sharing.
func TestIdentityOfSeasons(t *testing.T) {
	for base := range fact.Bases {
		var b bytes.Buffer
		if err := invent.Write(&b, 1500, uint64(base)+7); err != nil {
			t.Fatal(err)
		}
		n := read(fmt.Sprintf("share water, feed, weeding, watering, spraying, mending by %s\n%s", base, &b))
		first := n.Season(0).Year() - 9
		for year := first; year <= first+10; year++ {
			season := n.Season(year)
			holds(t, n, cost.Terms{Until: season.Last}, int(season.First))
		}
	}
}

type failer interface {
	Helper()
	Fatalf(string, ...any)
}

// holds checks all that must hold of a nursery, up to a day and cut at another.
// A cut of less than a few thousand counts from the first day.
func holds(t failer, n *nursery.Nursery, terms cost.Terms, cut int) {
	t.Helper()
	whole := terms.Until == 0
	day := fact.Date(cut)
	if cut < 5000 && len(n.Entries) > 0 {
		day += n.Entries[len(n.Entries)-1].Date - 700
	}
	before, in, book := sums(t, n, terms, day)
	all := before
	for k := range all {
		all[k] = all[k].Plus(in[k])
	}
	if got, want := all.balance(), standing(book); got != want {
		t.Fatalf("%s is left, but %s stands", got, want)
	}
	supposedHolds(t, n, terms)
	terms.Until = day - 1
	if day > 1 {
		same, _, opening := sums(t, n, terms, day)
		if same != before {
			t.Fatalf("followed up to %s: %v, and further: %v", day-1, same, before)
		}
		if got, want := before.balance(), standing(opening); got != want {
			t.Fatalf("opening is %s, but %s stood on %s", got, want, day-1)
		}
	}
	for _, s := range book.Standing {
		for part, a := range s.Load {
			if a.Sign() < 0 || s.N < 0 {
				t.Fatalf("%+v stands: %s is below nought", s, cost.Part(part))
			}
		}
	}
	var kept money.Amount // of things that last longer
	for _, thing := range book.Things {
		kept = kept.Add(thing.Cost.Sub(thing.Worn))
	}
	if whole {
		if out, spent := all[cost.Out].Cost(), all[cost.Spent].Cost().Add(kept); out != spent {
			t.Fatalf("%s was paid, and %s became cost or lasts", out, spent)
		}
		plantsStand(t, n, book)
	}
}

// supposedHolds checks what is supposed: with the take that was, all is as it
// was, and with another there is nothing below nought.
func supposedHolds(t failer, n *nursery.Nursery, terms cost.Terms) {
	t.Helper()
	terms.Takes = []int{0, 7, -7}
	check := func(what string, plants, living int64, is, revenue money.Amount, supposed []cost.Supposed) {
		if len(supposed) == 0 {
			return
		}
		x := supposed[0]
		off := x.Cost.Sub(is)
		if off.Sign() < 0 {
			off = off.Neg()
		}
		if x.N != plants*1_000_000 || x.Living != living*1_000_000 || off.Fixed(5) != "0.00000" || x.Revenue != revenue {
			t.Fatalf("%s: %d plants, %d of them living, at %s for %s; supposed %+v", what, plants, living, is, revenue, x)
		}
		for _, x := range supposed {
			if x.N < 0 || x.Living < 0 || x.Living > max(x.N, 0) || x.Cost.Sign() < 0 {
				t.Fatalf("%s: supposed %+v", what, x)
			}
		}
	}
	book, err := cost.Ready(n).Follow(terms, func(f *cost.Flow) {
		check(labelOf(f.Thing), f.N, 0, f.Load.Cost(), f.Revenue, f.Supposed)
	})
	if err != nil {
		t.Fatalf("%v", err)
	}
	for _, s := range book.Standing {
		if s.Lot != nil {
			check(s.Lot.Name, s.N, s.Living, s.Load.Cost(), money.Amount{}, s.Supposed)
		}
	}
}

func labelOf(t nursery.Thing) string {
	if t == nil {
		return "nothing"
	}
	return t.Label()
}

// plantsStand checks that plants stand where the replay says.
func plantsStand(t failer, n *nursery.Nursery, book *cost.Book) {
	t.Helper()
	on := map[*nursery.Lot]int64{}
	for _, s := range book.Standing {
		if s.Lot != nil {
			on[s.Lot] = s.N
			if s.Living != int64(s.Lot.On[fact.Living]) {
				t.Fatalf("%s: %d living, by the replay %d", s.Lot.Name, s.Living, s.Lot.On[fact.Living])
			}
		}
	}
	for _, l := range n.Lots {
		if !l.Limbs && on[l] != int64(l.Plants()) {
			t.Fatalf("%s: %d stand, by the replay %d", l.Name, on[l], l.Plants())
		}
	}
}

// sums adds the flows up, before a day and from it on. Fruit is paid for and
// gone.
func sums(t failer, n *nursery.Nursery, terms cost.Terms, from fact.Date) (before, in totals, book *cost.Book) {
	t.Helper()
	last := fact.Date(0)
	book, err := cost.Ready(n).Follow(terms, func(f *cost.Flow) {
		if f.Day < last {
			t.Fatalf("a flow of %s comes after one of %s", f.Day, last)
		}
		last = f.Day
		to := &in
		if f.Day < from {
			to = &before
		}
		to[f.Kind] = to[f.Kind].Plus(f.Load)
		if f.Enterprise == cost.Fruit && (f.Kind == cost.Spent || f.Kind == cost.Carried) {
			to[cost.Sold] = to[cost.Sold].Plus(f.Load)
		}
	})
	if err != nil {
		t.Fatalf("%v", err)
	}
	return before, in, book
}

// read reads a journal, whatever is wrong in it.
func read(journal string) *nursery.Nursery {
	return nursery.Replay([]*entry.Page{entry.Read(source.New("wild.bud", []byte(journal)))}, 0)
}

// wild is a journal of sentences put together at random. Many contradict the
// book and count for nothing, which must not upset the rest.
func wild(t *rapid.T) string {
	var b strings.Builder
	b.WriteString(hollow)
	b.WriteString("variety Tern species \"Eriobotrya japonica\" seed polyembryonic\nplace shade-1 area 60 m2 holds 900\nworker Ru\nrate 1 USD is 0.92 EUR\n")
	seed := rapid.Uint64().Draw(t, "seed")
	w := &wilderness{rnd: rand.New(rand.NewPCG(seed, 1))}
	for range rapid.IntRange(0, 2).Draw(t, "declared") {
		fmt.Fprintf(&b, "share %s by %s\n", w.of("water", "rent", "weeding"), w.of("plant-days", "area-days", "count"))
	}
	if rapid.Bool().Draw(t, "limit") {
		fmt.Fprintf(&b, "limit loss %d %%\n", w.n(0, 40))
	}
	day, _ := fact.NewDate(2024, 1, 5)
	for range rapid.IntRange(1, 120).Draw(t, "entries") {
		if w.n(0, 2) == 0 {
			day += fact.Date(w.n(0, 45))
		}
		fmt.Fprintf(&b, "%s\n%s\n", day, w.sentence())
	}
	return b.String()
}

type wilderness struct {
	rnd  *rand.Rand
	lots int
}

func (w *wilderness) n(from, to int) int { return from + w.rnd.IntN(to-from+1) }

func (w *wilderness) of(words ...string) string { return words[w.rnd.IntN(len(words))] }

// fresh is a name that is not taken yet, old one that may be.
func (w *wilderness) fresh() string { w.lots++; return fmt.Sprintf("L%d", w.lots) }
func (w *wilderness) old() string   { return fmt.Sprintf("L%d", w.n(max(1, w.lots-5), max(1, w.lots))) }

// tail is clauses that any entry takes.
func (w *wilderness) tail() string {
	return w.of("", "", "", " worker Ines 40 min", " worker Ru 1 h 10 min", " cost 3.37", " cost 1.11 USD worker Ines 7 min")
}

func (w *wilderness) sentence() string {
	few, state := w.n(1, 12), w.of("", "", "failed ", "waiting ")
	money := fmt.Sprintf("%d.%02d%s", w.n(0, 99), w.n(0, 99), w.of("", "", " USD"))
	switch w.n(0, 24) {
	case 0, 1:
		return fmt.Sprintf("buy %d liners of \"Quince BA\" as %s for %s%s", 3*few, w.fresh(), money, w.tail())
	case 2:
		return fmt.Sprintf("sow %d seed of Tern as %s for %s at shade-1%s", 4*few, w.fresh(), money, w.tail())
	case 3:
		return fmt.Sprintf("layer %d on M7 as %s%s", few, w.fresh(), w.tail())
	case 4:
		return fmt.Sprintf("cut %d %s from M7 as %s%s", 2*few, w.of("scions", "sticks"), w.fresh(), w.tail())
	case 5, 6, 7:
		return fmt.Sprintf("graft %d %sof %s with %s by cleft as %s%s", few, state, w.old(), w.of("M7", w.old()), w.fresh(), w.tail())
	case 8:
		return fmt.Sprintf("graft %d limbs of M7 with %s by bark as %s%s", w.n(1, 3), w.old(), w.fresh(), w.tail())
	case 9, 10, 11:
		return fmt.Sprintf("check %s: %d %s, %d %s, %d dead%s", w.old(), few, w.of("took", "rooted", "up", "up with 9 plants"), w.n(1, 4), w.of("failed", "unsure"), w.n(1, 4), w.tail())
	case 12:
		return w.of("sever ", "release ", "fail ", "revive ") + fmt.Sprintf("%d %sof %s", few, w.of("", "failed "), w.old()) + w.of("", " as "+w.fresh()) + w.tail()
	case 13:
		return fmt.Sprintf("%s %s to %s%s", w.of("lose", "cull"), w.old(), w.of("frost", "rot"), w.tail())
	case 14:
		return fmt.Sprintf("lose %d %sof %s to frost%s", few, state, w.old(), w.tail())
	case 15:
		return fmt.Sprintf("pot %s to %d L%s", w.old(), w.n(1, 20), w.tail())
	case 16:
		return fmt.Sprintf("split %d %sof %s as %s%s", few, state, w.old(), w.fresh(), w.tail())
	case 17:
		return fmt.Sprintf("join %s, %s as %s%s", w.old(), w.old(), w.fresh(), w.tail())
	case 18, 19:
		return fmt.Sprintf("sell %d %sof %s to Bob for %s%s", few, state, w.old(), money, w.tail())
	case 20:
		return w.of("give ", "sell ", "count 3 over ") + w.old() + " to Bob" + w.tail()
	case 21:
		return fmt.Sprintf("plant %d of %s as T%d%s", 1, w.old(), w.n(1, 9), w.tail()) + w.of("", fmt.Sprintf("\nsell T%d to Bob for 9.00 worker Ines 5 min", w.n(1, 9)))
	case 22:
		return fmt.Sprintf("return %d %s of %s from Bob as %s for %s%s", w.n(1, 2), w.of("living", "failed"), w.old(), w.fresh(), money, w.tail())
	case 23:
		return fmt.Sprintf("spend %s on %s%s%s", money, w.of("water", "rent", "pots"), w.of("", " for "+w.old(), fmt.Sprintf(" for %s, %s, M7", w.old(), w.old()), " for Amberlight"), w.of("", "", fmt.Sprintf(" over %d %s", w.n(1, 30), w.of("days", "weeks", "months", "years"))))
	}
	return w.of(
		fmt.Sprintf("work weeding%s worker Ines %d h, Ru 10 min", w.of("", " for "+w.old()), w.n(1, 9)),
		fmt.Sprintf("count %s %d, %d %s", w.old(), w.n(1, 30), w.n(1, 3), w.of("missing", "over")),
		fmt.Sprintf("pick %d kg from M7 worker Ines 20 min", few),
		fmt.Sprintf("sell %d kg fruit of M7 to Bob at 3.20 per kg", few),
		fmt.Sprintf("sell %d scions of %s to Bob at 0.50 each%s", few, w.of("M7", w.old()), w.tail()),
		fmt.Sprintf("graft %d of %s into M7 by inarch%s", w.n(1, 3), w.old(), w.tail()),
		fmt.Sprintf("note %s \"as it is\"%s", w.old(), w.tail()),
	)
}
