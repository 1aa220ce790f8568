package cost

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/money"
)

// outgoing is the plants that the entry at hand sells, gives away or plants.
type outgoing struct {
	kind  Kind // 0 where there are none
	lot   int32
	state fact.State
	n     int64
	load  Load
}

// entry follows one entry: its plants, then what it costs, then its money.
func (f *follower) entry(i int) {
	e := f.n.Entries[i]
	f.out = outgoing{}
	f.moveAll(e)
	f.useWood(i)
	f.pay(i)
	switch m := e.Effect.(type) {
	case *fact.Leave:
		f.leave(e, m)
	case *fact.Plant:
		f.plant(e, m)
	case *fact.Return:
		f.takeBack(e, m)
	case *fact.Paid:
		f.emit(Flow{Kind: In, Day: f.day(e), Entry: e, Revenue: f.amount(e, m.Amount), Written: f.written(e, m.Amount)})
	case *fact.Graft: // into a standing tree
		f.plantOut(e)
	}
}

// moveAll follows the plants of an entry.
func (f *follower) moveAll(e *fact.Entry) {
	first := f.moves
	for f.moves < len(f.n.Moves) && f.n.Moves[f.moves].Entry == e {
		f.moves++
	}
	if f.moves == first {
		return
	}
	moves, at := f.n.Moves[first:f.moves], f.ends[first:f.moves]
	for k := range at {
		f.settleCharge(at[k].from)
		f.settleCharge(at[k].to)
	}
	if len(f.terms.Takes) > 0 {
		f.suppose(moves, at)
	}
	for k := range moves {
		f.move(&moves[k], at[k], k)
	}
}

// day is the day of an entry's flows. What stands before the first day of the
// journal counts on that.
func (f *follower) day(e *fact.Entry) fact.Date { return max(e.Date, f.month.first) }

// move takes plants, and what they carry, where a move of the replay takes them.
// Limbs are no plants and carry nothing.
func (f *follower) move(mv *nursery.Move, at ends, k int) {
	n := int64(mv.N)
	switch {
	case at.from == at.to:
		if at.from >= 0 {
			b := &f.lots[at.from]
			b.count(mv.FromState, -n)
			b.count(mv.ToState, n)
		}
	case n < 0: // found at a stocktake
		b := &f.lots[at.from]
		b.pool.put(-n, &Load{})
		b.entered -= n
		b.count(mv.FromState, -n)
		f.supposeFound(at.from, k)
		f.collect(at.from, f.day(mv.Entry))
	case at.to >= 0:
		var l Load
		if at.from >= 0 {
			l = f.depart(mv, at.from)
		}
		f.supposeMove(at, k)
		f.arrive(mv, at.to, l)
	case outward(mv.How) == Lost:
		f.lose(mv, at.from, k)
	default:
		f.leaveWith(mv, at, k)
	}
}

func (f *follower) arrive(mv *nursery.Move, lot int32, l Load) {
	b, n := &f.lots[lot], int64(mv.N)
	b.pool.put(n, &l)
	b.entered += n
	b.count(mv.ToState, n)
	f.collect(lot, f.day(mv.Entry))
}

func (f *follower) depart(mv *nursery.Move, lot int32) Load {
	b, n := &f.lots[lot], int64(mv.N)
	b.count(mv.FromState, -n)
	return b.pool.take(n)
}

func (b *lotBook) count(s fact.State, n int64) {
	if s == fact.Living {
		b.living += n
	}
}

// leaveWith notes plants that leave, with what they carry, for the entry to say
// what becomes of them.
func (f *follower) leaveWith(mv *nursery.Move, at ends, k int) {
	l := f.depart(mv, at.from)
	f.supposeMove(at, k)
	if f.out.kind == 0 || mv.FromState == fact.Living {
		f.out.state = mv.FromState
	}
	f.out.kind, f.out.lot = outward(mv.How), at.from
	f.out.n += int64(mv.N)
	f.out.load.add(&l)
}

// outward is the kind of flow by which plants leave.
func outward(how fact.How) Kind {
	switch how {
	case fact.Sold:
		return Sold
	case fact.Given:
		return Given
	case fact.PlantedOut, fact.Worked:
		return Planted
	}
	return Lost
}

// lose takes out plants that died, were culled or are missing.
func (f *follower) lose(mv *nursery.Move, lot int32, k int) {
	b, n := &f.lots[lot], int64(mv.N)
	b.count(mv.FromState, -n)
	share := f.normalLoss(b.lot, mv.Entry.Date)
	l := b.pool.lose(n, money.Normal{Share: share, Entered: b.entered, Gone: b.gone})
	b.gone += n
	f.supposeLoss(lot, k, share)
	f.emit(Flow{Kind: Lost, Day: f.day(mv.Entry), Thing: b.lot, State: mv.FromState, Entry: mv.Entry, N: n, Load: l, Supposed: f.supposed})
	clear(f.supposed)
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
