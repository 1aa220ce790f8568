package cost

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/money"
)

// outgoing is the plants that the entry at hand sells, gives away or plants.
type outgoing struct {
	kind  Kind
	lot   *nursery.Lot
	state fact.State
	n     int64 // in units
	load  Load
}

// entry follows one entry: its plants, then what it costs, then its money.
func (f *follower) entry(e *fact.Entry) {
	f.out = outgoing{}
	for f.moves < len(f.n.Moves) && f.n.Moves[f.moves].Entry == e {
		f.move(&f.n.Moves[f.moves], f.month.moved[f.month.followed])
		f.moves++
		f.month.followed++
	}
	f.useWood(e)
	f.pay(e)
	switch m := e.Effect.(type) {
	case *fact.Leave:
		f.leave(e, m)
	case *fact.Plant:
		f.plant(e, m)
	case *fact.Return:
		f.takeBack(e, m)
	case *fact.Paid:
		f.emit(Flow{Kind: In, Day: f.day(e), Entry: e, Revenue: f.amount(e, m.Amount)})
	case *fact.Graft: // into a standing tree
		f.plantOut(e)
	}
}

// day is the day of an entry's flows. What stands before the first day of the
// journal counts on that.
func (f *follower) day(e *fact.Entry) fact.Date { return max(e.Date, f.month.first) }

// move takes plants, and what they carry, where a move of the replay takes them.
// Limbs are no plants and carry nothing.
func (f *follower) move(mv *nursery.Move, n int64) {
	switch {
	case mv.From != nil && mv.From.Limbs || mv.To != nil && mv.To.Limbs:
	case mv.From == mv.To:
		f.turn(mv, n)
	case mv.From == nil:
		f.arrive(mv, n, Load{})
	case mv.To != nil:
		f.arrive(mv, n, f.depart(mv, n))
	case mv.N < 0: // found at a stocktake
		b := f.bookOf(mv.From)
		b.pool.put(-n, &Load{})
		b.plants, b.entered = b.plants-int64(mv.N), b.entered-n
		b.count(mv.FromState, -n)
		f.collect(b, f.day(mv.Entry))
	default:
		f.gone(mv, n)
	}
}

// turn is plants of a lot that change their state.
func (f *follower) turn(mv *nursery.Move, n int64) {
	b := f.bookOf(mv.From)
	b.count(mv.FromState, -n)
	b.count(mv.ToState, n)
}

func (f *follower) arrive(mv *nursery.Move, n int64, l Load) {
	b := f.bookOf(mv.To)
	b.pool.put(n, &l)
	b.plants, b.entered = b.plants+int64(mv.N), b.entered+n
	b.count(mv.ToState, n)
	f.collect(b, f.day(mv.Entry))
}

func (f *follower) depart(mv *nursery.Move, n int64) Load {
	b := f.bookOf(mv.From)
	b.plants -= int64(mv.N)
	b.count(mv.FromState, -n)
	return b.pool.take(n)
}

func (b *lotBook) count(s fact.State, n int64) {
	if s == fact.Living {
		b.living += n
	}
}

// gone is plants that leave the nursery.
func (f *follower) gone(mv *nursery.Move, n int64) {
	kind := map[fact.How]Kind{fact.Sold: Sold, fact.Given: Given, fact.PlantedOut: Planted, fact.Worked: Planted}[mv.How]
	if kind == 0 {
		f.lose(mv, n)
		return
	}
	l := f.depart(mv, n)
	if f.out.lot == nil || mv.FromState == fact.Living {
		f.out.state = mv.FromState
	}
	f.out.kind, f.out.lot = kind, mv.From
	f.out.n += n
	f.out.load.add(&l)
}

// lose takes out plants that died, were culled or are missing.
func (f *follower) lose(mv *nursery.Move, n int64) {
	b := f.bookOf(mv.From)
	b.plants -= int64(mv.N)
	b.count(mv.FromState, -n)
	normal := money.Normal{Share: f.normalLoss(b.lot, mv.Entry.Date), Entered: b.entered, Gone: b.gone}
	l := b.pool.lose(n, normal)
	b.gone += n
	f.emit(Flow{Kind: Lost, Day: f.day(mv.Entry), Thing: b.lot, State: mv.FromState, Entry: mv.Entry, N: n, Load: l})
}

// all is the share of loss that is normal where nothing is declared.
var all = money.Ratio{Num: 1, Den: 1}

// normalLoss is what share of a lot may be lost, as the journal declares it for
// its variety, species or everything.
func (f *follower) normalLoss(l *nursery.Lot, day fact.Date) money.Ratio {
	if !f.limits {
		return all
	}
	var of []string
	if v := l.Top.Variety; v != nil {
		of = []string{v.Name, v.Species}
	}
	limit, ok := f.n.Limit("loss", day, of...)
	if !ok || limit.Declared == nil {
		return all
	}
	share := limit.Declared.Effect.(*fact.Limit).Value.Value
	ratio, err := money.Decimal(share.Coef, int(share.Scale)+2)
	if err != nil || ratio.Num >= ratio.Den {
		return all
	}
	return ratio
}

// declaresLoss reports whether a journal says what loss is normal.
func declaresLoss(n *nursery.Nursery) bool {
	for _, e := range n.Entries {
		if l, ok := e.Effect.(*fact.Limit); ok && l.Rule.Text == "loss" {
			return true
		}
	}
	return false
}
