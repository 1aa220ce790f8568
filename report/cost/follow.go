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
	Until  fact.Date
	Change Change
}

// Follow follows the money through a nursery and yields each flow in the order
// of their days. The flow is only the caller's until yield returns.
//
// Its error is a *Refusal: money that can't be turned into the farm's own. The
// flows that were yielded then mean nothing.
func Follow(n *nursery.Nursery, t Terms, yield func(*Flow)) (*Book, error) {
	p, err := newPurse(n)
	if err != nil {
		return nil, err
	}
	if t.AsAt == 0 {
		t.AsAt = n.Last
	}
	if t.Until == 0 || t.Until > t.AsAt {
		t.Until = t.AsAt
	}
	f := &follower{
		purse: p, terms: t, yield: yield, shares: readShares(n.Entries), quotes: readQuotes(n),
		index: make(map[*nursery.Lot]int32, len(n.Lots)), lots: make([]lotBook, len(n.Lots)),
		planted: map[*fact.Entry]*pool{}, limits: declaresLoss(n), unit: t.Change.unit(),
		book: &Book{Currency: p.home, Places: p.places, Unit: t.Change.unit()},
	}
	for i, l := range n.Lots {
		f.index[l] = int32(i)
		f.lots[i].lot = l
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
	*purse
	terms  Terms
	yield  func(*Flow)
	book   *Book
	shares *shares
	quotes map[*nursery.Variety][]quote
	limits bool  // the journal declares what loss is normal
	unit   int64 // how many of the pools' units make a plant

	lots  []lotBook // in the order of the nursery's
	index map[*nursery.Lot]int32
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
}

// lotBook is what is kept of a lot.
type lotBook struct {
	lot  *nursery.Lot
	plot int32 // one more than its index in plots

	// As the entry at hand leaves it.
	pool    pool
	plants  int64 // whole plants, whatever is supposed
	living  int64 // in units
	entered int64 // in units
	gone    int64 // lost, in units

	// As the end of the month will leave it, only where something is supposed.
	on  [fact.States]int64 // in units
	was [fact.States]int64 // whole plants
}

func (f *follower) bookOf(l *nursery.Lot) *lotBook { return &f.lots[f.index[l]] }

// emit yields a flow of the day, unless there is nothing in it.
func (f *follower) emit(fl Flow) {
	if fl.Load.isNone() && fl.N == 0 && fl.Revenue == (money.Amount{}) {
		return
	}
	f.yield(&fl)
}

// close says what stands at the end.
func (f *follower) close() {
	for i := range f.lots {
		b := &f.lots[i]
		if b.pool.count > 0 || !b.pool.load.isNone() {
			f.book.Standing = append(f.book.Standing, Standing{Lot: b.lot, N: b.pool.count, Living: b.living, Load: b.pool.load})
		}
	}
	f.closeWood()
	f.book.Doubts.Foreign = slices.Sorted(maps.Keys(f.foreign))
	f.book.Doubts.Unshared = f.shares.unmet(f.n.Entries)
}
