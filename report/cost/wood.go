package cost

import (
	"cmp"
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
)

// wood is bundles on their way to the bench. Where it is not known how many
// scions a bundle holds, it is taken to hold what was taken out of it.
type wood struct {
	of    map[*nursery.Bundle]*bundle
	order []*bundle // by the day on which what is left is thrown out
	out   int       // how many of them are dealt with
}

// bundle is what is kept of one.
type bundle struct {
	bundle *nursery.Bundle
	pool   pool
	filled bool
	holds  int64
	ends   fact.Date // when what is left is no use any more
}

// readWood finds how much each bundle holds and how long it is of use: to the
// end of the season in which it was cut, or in which the last was taken.
func (f *follower) readWood() {
	f.wood.of = make(map[*nursery.Bundle]*bundle, len(f.n.Bundles))
	taken := map[*nursery.Bundle]int64{}
	last := map[*nursery.Bundle]fact.Date{}
	for i := range f.n.Uses {
		u := &f.n.Uses[i]
		taken[u.From] += int64(u.N)
		last[u.From] = max(last[u.From], u.Entry.Date)
	}
	from := f.n.SeasonFrom()
	for _, b := range f.n.Bundles {
		w := &bundle{bundle: b, holds: int64(b.Count)}
		if b.Count < 0 {
			w.holds = taken[b]
		}
		w.ends = fact.SeasonOf(max(b.Made.Date, last[b], 1), from).Last
		f.wood.of[b] = w
		f.wood.order = append(f.wood.order, w)
	}
	slices.SortStableFunc(f.wood.order, func(a, b *bundle) int { return cmp.Compare(a.ends, b.ends) })
}

// fill puts the scions in when the bundle is first met.
func (b *bundle) fill() {
	if !b.filled {
		b.filled = true
		b.pool.put(b.holds, &Load{})
	}
}

func (w *wood) bear(b *nursery.Bundle, l *Load) { w.of[b].pool.put(0, l) }

// useWood takes out of bundles what an entry uses. Sales and losses of wood are
// dealt with by leave.
func (f *follower) useWood(i int) {
	e := f.n.Entries[i]
	for f.uses < len(f.n.Uses) && f.n.Uses[f.uses].Entry == e {
		u := &f.n.Uses[f.uses]
		f.uses++
		w := f.wood.of[u.From]
		w.fill()
		n := int64(u.N)
		switch u.How {
		case fact.Grafted, fact.Stuck, fact.Sown:
			f.carry(e, f.bears[i]-1, w, n)
		default:
			f.woodLeaves(e, w, u, n)
		}
	}
}

// carry brings wood, or seed, and its cost into what it was used for.
func (f *follower) carry(e *fact.Entry, lot int32, w *bundle, n int64) {
	fl := Flow{Kind: Carried, Day: f.day(e), From: w.bundle, Entry: e, N: n}
	if lot >= 0 {
		b := &f.lots[lot]
		fl.Thing, fl.Load = b.lot, w.pool.take(n)
		f.supposeCost(lot, fl.Load.Cost())
		b.pool.put(0, &fl.Load)
		f.emit(fl)
	} else if limbs := f.bearers(e); len(limbs) == 1 {
		fl.Enterprise, fl.Thing, fl.Load = Fruit, fruitOf(limbs[0]), w.pool.take(n)
		f.emit(fl)
	}
}

// woodLeaves is wood that is sold, given away, or thrown out by an entry.
func (f *follower) woodLeaves(e *fact.Entry, w *bundle, u *nursery.Use, n int64) {
	fl := Flow{Enterprise: Wood, Day: f.day(e), Thing: u.From, Entry: e, N: n, Load: w.pool.take(n)}
	switch u.How {
	case fact.Sold:
		fl.Kind = Sold
		fl.Revenue, fl.Written = f.revenue(e, e.Effect.(*fact.Leave), int64(u.N))
	case fact.Given:
		fl.Kind = Given
	default:
		fl.Kind = Lost
	}
	f.emit(fl)
}

// throwOut takes off what is left of bundles that are no use any more.
func (f *follower) throwOut() {
	for ; f.wood.out < len(f.wood.order) && f.wood.order[f.wood.out].ends <= f.month.last; f.wood.out++ {
		w := f.wood.order[f.wood.out]
		w.fill()
		n := w.pool.count
		f.emit(Flow{Kind: Lost, Enterprise: Wood, Day: f.month.last, Thing: w.bundle, N: n, Load: w.pool.empty()})
	}
}

// closeWood says what is left of wood at the end.
func (f *follower) closeWood() {
	for _, b := range f.n.Bundles {
		w := f.wood.of[b]
		w.fill()
		if l := w.pool.load; !l.isNone() {
			f.book.Standing = append(f.book.Standing, Standing{Bundle: b, N: w.pool.count, Load: l})
		}
	}
}
