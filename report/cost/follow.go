package cost

import (
	"maps"
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/money"
)

// Terms say how far flows are followed, and what is supposed.
type Terms struct {
	// AsAt is the last day that counts for the time that costs serve; the last
	// day of the journal where it is 0.
	AsAt fact.Date
	// Until is the last day that is followed: what stands is what stands then. It
	// is AsAt where it is 0.
	Until fact.Date
	// Takes are supposed: see Supposed. Each is a number of points, below 0 for
	// fewer.
	Takes []int
}

// Follow follows the money through a nursery and yields each flow in the order
// of their days. The flow is only the caller's until yield returns.
//
// Its error is a *Refusal: money that can't be turned into the farm's own. The
// flows that were yielded then mean nothing.
func (t *Trail) Follow(terms Terms, yield func(*Flow)) (*Book, error) {
	p, err := newPurse(t.n)
	if err != nil {
		return nil, err
	}
	if terms.AsAt == 0 {
		terms.AsAt = t.n.Last
	}
	if terms.Until == 0 || terms.Until > terms.AsAt {
		terms.Until = terms.AsAt
	}
	takes := len(terms.Takes)
	f := &follower{
		Trail: t, purse: p, terms: terms, yield: yield, lots: make([]lotBook, len(t.n.Lots)),
		planted: map[*fact.Entry]*pool{}, book: &Book{Currency: p.home, Places: p.places},
		twins: make([]twin, takes*len(t.n.Lots)), counts: make([][]int64, takes), supposed: make([]Supposed, takes),
	}
	for i, l := range t.n.Lots {
		f.lots[i].open(l)
	}
	f.readWood()
	f.walk()
	if err := p.refusal(); err != nil {
		return nil, err
	}
	f.close()
	return f.book, nil
}

// A follower walks through the entries, month by month.
type follower struct {
	*Trail
	*purse
	terms Terms
	yield func(*Flow)
	book  *Book

	lots []lotBook // in the order of the nursery's
	// plots are those of the lots that hold plants, in the order in which the
	// first came; bench and benchRoom are their sums.
	plots            []plot
	bench, benchRoom int64
	wood             wood
	planted          map[*fact.Entry]*pool // trees that are followed, by the entry that set them out

	// How many of the nursery's moves and uses, and of the things that were
	// bought for longer, have been followed.
	moves, uses, things int
	month               month
	out                 outgoing
	flow                Flow

	// Of each supposed take: the twins of the lots, the plants in each move of the
	// entry at hand, and what of them leaves.
	twins    []twin
	counts   [][]int64
	supposed []Supposed
}

// lotBook is what is kept of a lot. What every move asks of the lot itself is
// kept here too: of a large nursery the lots are far apart in memory.
type lotBook struct {
	lot     *nursery.Lot
	spots   []nursery.Spot
	stands  [fact.States]bool // whether plants of a state stand in the nursery
	grafted bool
	plot    int32 // one more than its index in plots

	pool    pool
	living  int64
	entered int64
	gone    int64 // lost

	was [fact.States]int64 // plants in each state, for the twins
}

func (b *lotBook) open(l *nursery.Lot) {
	b.lot, b.spots = l, l.Spots
	b.grafted = l.Batch != nil && l.Batch.Kind == nursery.GraftBatch
	for s := range b.stands {
		b.stands[s] = stands(l, fact.State(s))
	}
}

// emit yields a flow of the day, unless there is nothing in it.
func (f *follower) emit(fl Flow) {
	if fl.Load.isNone() && fl.N == 0 && fl.Revenue == (money.Amount{}) {
		return
	}
	f.flow = fl
	f.yield(&f.flow)
}

// close says what stands at the end.
func (f *follower) close() {
	for i := range f.plots {
		f.settleCharge(f.plots[i].lot)
	}
	for i := range f.lots {
		b := &f.lots[i]
		if b.pool.count > 0 || !b.pool.load.isNone() {
			f.book.Standing = append(f.book.Standing, Standing{
				Lot: b.lot, N: b.pool.count, Living: b.living, Load: b.pool.load, Supposed: f.supposeAt(int32(i)),
			})
		}
	}
	f.closeWood()
	f.book.Doubts.Foreign = slices.Sorted(maps.Keys(f.foreign))
	f.book.Doubts.Unshared = f.unmet
}
