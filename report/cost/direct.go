package cost

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/money"
)

// pay books what an entry costs.
func (f *follower) pay(i int) {
	e := f.n.Entries[i]
	if _, ok := lasting(e); ok {
		f.payThing(e)
		return
	}
	if _, ok := shared(e); ok { // the month has booked it
		l := f.month.sums[0]
		f.month.sums = f.month.sums[1:]
		f.payOut(e, l)
		return
	}
	l := f.sums(e)
	if l.isNone() {
		return
	}
	f.payOut(e, l)
	if f.goesWithPlants(e, l) {
		return
	}
	if k := f.bears[i] - 1; k >= 0 {
		f.bearOrLose(e, l, k)
		return
	}
	f.attribute(e, l, f.bearing(e), Lost)
}

// payOut notes what an entry cost, as it stands.
func (f *follower) payOut(e *fact.Entry, l Load) {
	f.emit(Flow{Kind: Out, Day: f.day(e), Entry: e, Load: l, Written: f.writtenCost(e)})
}

// payThing notes what a thing cost that lasts, and charges what its first month
// uses up to the lots that it serves.
func (f *follower) payThing(e *fact.Entry) {
	t := f.book.Things[f.things]
	f.things++
	f.payOut(e, t.paid)
	if t.first != (money.Amount{}) {
		f.wearFor(e, t.first)
	}
}

// goesWithPlants books the cost of selling, giving or planting plants with
// those that leave.
func (f *follower) goesWithPlants(e *fact.Entry, l Load) bool {
	out := &f.out
	if out.kind == 0 {
		return false
	}
	f.emit(Flow{Kind: Spent, Day: f.day(e), Thing: f.lots[out.lot].lot, Entry: e, Load: l})
	out.load.add(&l)
	for s := range f.supposed {
		x := &f.supposed[s]
		x.Cost = x.Cost.Add(l.Cost().MulFrac(x.N, out.n*fine))
	}
	return true
}

// bearing is what bears the cost of an entry now, with the lots that stand of
// the varieties that it names.
func (f *follower) bearing(e *fact.Entry) []nursery.Thing {
	list := f.bearers(e)
	for _, name := range about(e) {
		if _, ok := f.n.Thing(name.Text); ok {
			continue
		}
		v, ok := f.n.Variety(name.Text)
		for i := range f.plots {
			if b := &f.lots[f.plots[i].lot]; ok && b.lot.Top.Variety == v && b.pool.count > 0 {
				list = append(list, b.lot)
			}
		}
	}
	return list
}

// bearOrLose books a cost on a lot, or as a loss where nothing is left of it.
func (f *follower) bearOrLose(e *fact.Entry, l Load, lot int32) {
	if b := &f.lots[lot]; b.pool.count > 0 {
		f.bearLot(e, l, lot)
	} else {
		f.tooLate(e, l, b.lot, Lost)
	}
}

// attribute books a cost on things: lots bear it by the plants that stand in
// them, and a tree or a bundle of wood counts as one. Where nothing is left that
// could bear it, it goes where otherwise says; where there never was anything,
// since the entry contradicts the book, nobody bears it.
func (f *follower) attribute(e *fact.Entry, l Load, things []nursery.Thing, otherwise Kind) {
	if len(things) == 0 {
		f.emit(Flow{Kind: Spent, Day: f.day(e), Entry: e, Load: l})
		f.emit(Flow{Kind: Unallocated, Day: f.day(e), Entry: e, Load: l})
		return
	}
	weights := make([]int64, len(things))
	var sum int64
	for i, t := range things {
		weights[i] = 1
		if lot, ok := t.(*nursery.Lot); ok && !lot.Limbs {
			weights[i] = f.lots[lot.Number].pool.count
		}
		sum += weights[i]
	}
	if sum == 0 {
		f.tooLate(e, l, things[0], otherwise)
		return
	}
	for i, share := range l.split(weights) {
		if weights[i] > 0 {
			f.bear(e, share, things[i])
		}
	}
}

// bear books a cost on one thing.
func (f *follower) bear(e *fact.Entry, l Load, t nursery.Thing) {
	fl := Flow{Kind: Spent, Enterprise: Fruit, Day: f.day(e), Thing: t, Entry: e, Load: l}
	switch t := t.(type) {
	case *nursery.Lot:
		if !t.Limbs {
			f.bearLot(e, l, t.Number)
			return
		}
		fl.Thing = t.Mother
	case *nursery.Limb:
		fl.Thing = t.Tree
	case *nursery.Bundle:
		fl.Enterprise = Wood
		f.wood.bear(t, &l)
	}
	f.emit(fl)
}

// bearLot books a cost on a lot.
func (f *follower) bearLot(e *fact.Entry, l Load, lot int32) {
	b := &f.lots[lot]
	f.supposeCost(lot, l.Cost())
	b.pool.put(0, &l)
	f.emit(Flow{Kind: Spent, Day: f.day(e), Thing: b.lot, Entry: e, Load: l})
}

// tooLate books a cost that comes for a lot of which nothing is left.
func (f *follower) tooLate(e *fact.Entry, l Load, t nursery.Thing, kind Kind) {
	switch e.Effect.(type) {
	case *fact.Leave, *fact.Check: // it took the last itself
	default:
		if kind == Lost {
			f.book.Doubts.Late = append(f.book.Doubts.Late, e)
		}
	}
	f.emit(Flow{Kind: Spent, Day: f.day(e), Thing: t, Entry: e, Load: l})
	f.emit(Flow{Kind: kind, Day: f.day(e), Thing: t, Entry: e, Load: l})
}
