package cost

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/money"
)

// pay books what an entry costs.
func (f *follower) pay(e *fact.Entry) {
	if s, ok := lasting(e); ok {
		f.payThing(e, s)
		return
	}
	if _, ok := shared(e); ok { // the month has booked it
		l := f.month.sums[0]
		f.month.sums = f.month.sums[1:]
		f.emit(Flow{Kind: Out, Day: f.day(e), Entry: e, Load: l})
		return
	}
	l := f.sums(e)
	if l.isNone() {
		return
	}
	f.emit(Flow{Kind: Out, Day: f.day(e), Entry: e, Load: l})
	if f.goesWithPlants(e, l) {
		return
	}
	things := f.bears(e)
	if len(things) == 0 { // the entry contradicts the book
		f.emit(Flow{Kind: Spent, Day: f.day(e), Entry: e, Load: l})
		f.emit(Flow{Kind: Unallocated, Day: f.day(e), Entry: e, Load: l})
		return
	}
	f.attribute(e, l, things, Lost)
}

// payThing notes what a thing cost that lasts, and charges what its first month
// uses up to the lots that it serves.
func (f *follower) payThing(e *fact.Entry, s *fact.Spend) {
	t := f.book.Things[f.things]
	f.things++
	f.emit(Flow{Kind: Out, Day: f.day(e), Entry: e, Load: t.paid})
	if t.first != (money.Amount{}) {
		f.wearFor(e, s, t.first)
	}
}

// goesWithPlants books the cost of selling, giving or planting plants with
// those that leave.
func (f *follower) goesWithPlants(e *fact.Entry, l Load) bool {
	out := &f.out
	if out.lot == nil {
		return false
	}
	if whole := f.wholeMoved(e); whole > 0 {
		l = l.times(out.n, whole*f.unit)
	}
	f.emit(Flow{Kind: Spent, Day: f.day(e), Thing: out.lot, Entry: e, Load: l})
	out.load.add(&l)
	return true
}

// wholeMoved is how many plants an entry has just moved out, whatever is
// supposed.
func (f *follower) wholeMoved(e *fact.Entry) (n int64) {
	for i := f.moves - 1; i >= 0 && f.n.Moves[i].Entry == e; i-- {
		if f.n.Moves[i].To == nil && f.n.Moves[i].From == f.out.lot {
			n += int64(f.n.Moves[i].N)
		}
	}
	return n
}

// bears lists what bears the cost of an entry: what it makes, else what it is
// about. None bears that of an entry that was refused.
func (f *follower) bears(e *fact.Entry) []nursery.Thing {
	switch m := e.Effect.(type) {
	case *fact.Begin:
		return f.made(e, m.As)
	case *fact.Layer:
		return f.made(e, m.As)
	case *fact.Cut:
		return f.made(e, m.As)
	case *fact.Graft:
		if m.Into.Given() {
			return f.named(m.Into)
		}
		return f.made(e, m.As)
	case *fact.Join:
		return f.made(e, m.As)
	case *fact.Pass:
		if m.As.Given() {
			return f.made(e, m.As)
		}
		return f.named(m.Lot)
	case *fact.Return:
		if m.As.Given() {
			return f.made(e, m.As)
		}
		return f.named(m.Of)
	}
	return f.named(about(e)...)
}

// about is what an entry names that it is about, where it makes nothing.
func about(e *fact.Entry) []fact.Name {
	switch m := e.Effect.(type) {
	case *fact.Spend:
		return m.For
	case *fact.Work:
		return m.For
	case *fact.Remark:
		return m.Of
	case *fact.Check:
		return []fact.Name{m.Lot}
	case *fact.Turn:
		return []fact.Name{m.Lot}
	case *fact.Leave:
		return []fact.Name{m.Of}
	case *fact.Plant:
		return []fact.Name{m.Of}
	case *fact.Pick:
		return m.From
	case *fact.Stocktake:
		return m.Lots
	case *fact.Tend:
		return m.Lots
	case *fact.Mark:
		return []fact.Name{m.Of}
	case *fact.Tree:
		return []fact.Name{m.Name}
	case *fact.Limb:
		return []fact.Name{m.Name}
	}
	return nil
}

// made is what an entry made under a name, if it counted.
func (f *follower) made(e *fact.Entry, as fact.Name) []nursery.Thing {
	if t, ok := f.n.Thing(as.Text); ok && t.Origin() == e {
		return []nursery.Thing{t}
	}
	return nil
}

// named finds what names mean: things, and for the name of a variety the lots of
// it that stand.
func (f *follower) named(names ...fact.Name) (list []nursery.Thing) {
	for _, name := range names {
		if t, ok := f.n.Thing(name.Text); ok {
			list = append(list, t)
			continue
		}
		v, ok := f.n.Variety(name.Text)
		if !ok {
			continue
		}
		for i := range f.plots {
			if b := &f.lots[f.plots[i].lot]; b.lot.Top.Variety == v && b.pool.count > 0 {
				list = append(list, b.lot)
			}
		}
	}
	return list
}

// attribute books a cost on things: lots bear it by the plants that stand in
// them, and a tree or a bundle of wood counts as one. Where nothing is left that
// could bear it, it goes where otherwise says.
func (f *follower) attribute(e *fact.Entry, l Load, things []nursery.Thing, otherwise Kind) {
	weights := make([]int64, len(things))
	var sum int64
	for i, t := range things {
		weights[i] = 1
		if lot, ok := t.(*nursery.Lot); ok && !lot.Limbs {
			weights[i] = f.bookOf(lot).plants
		}
		sum += weights[i]
	}
	if sum == 0 {
		f.tooLate(e, l, things[0], otherwise)
		return
	}
	if len(things) == 1 {
		f.bear(e, l, things[0])
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
	fl := Flow{Kind: Spent, Day: f.day(e), Thing: t, Entry: e}
	switch t := t.(type) {
	case *nursery.Lot:
		if t.Limbs {
			fl.Enterprise, fl.Thing = Fruit, t.Mother
			break
		}
		b := f.bookOf(t)
		if b.plants > 0 {
			l = l.times(b.pool.count, b.plants*f.unit)
		}
		b.pool.put(0, &l)
	case *nursery.Limb:
		fl.Enterprise, fl.Thing = Fruit, t.Tree
	case *nursery.Tree:
		fl.Enterprise = Fruit
	case *nursery.Bundle:
		fl.Enterprise = Wood
		f.wood.bear(t, &l)
	}
	fl.Load = l
	f.emit(fl)
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
