package cost

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/money"
)

// month is the calendar month at hand, which is gone through twice: once for
// what stands in it and what is to be shared, and once to follow its entries.
type month struct {
	number      int32
	first, last fact.Date // last is not after the last day that counts
	from, to    int       // its entries among the nursery's
	sums        []Load    // of each of its entries that all share, in order
	shared      [fact.Bases]splitter
	due         []Load // charges of lots whose first plants are yet to arrive
	unallocated Load
}

// plot is what a lot holds as the end of the month will leave it, for the
// weights of the month.
type plot struct {
	lot    int32
	month  int32 // the month for which left, days and area hold; in any other nothing has moved
	due    int32 // one more than the charge in month.due that waits for the first plants
	spots  int32 // how many of the lot's spots have come
	plants int64 // that it holds
	bench  int64 // of them, those that stand in the nursery and not on a mother
	room   int64 // of each, in square centimetres
	left   int64 // of the plants that stood, those that left the nursery
	days   int64 // plant-days
	area   int64 // square centimetre-days

	// accrued is what the lot was charged since plants of it last moved, and is
	// yet to be put on them.
	accrued Load
}

// walk goes through all months, from that of the first day written in.
func (f *follower) walk() {
	entries := f.n.Entries
	day := f.firstDay()
	for at := 0; day != 0 && day <= f.terms.Until; {
		m := &f.month
		m.number++
		m.first, m.last = day, min(lastOfMonth(day), f.terms.AsAt)
		from := at
		for at < len(entries) && entries[at].Date <= m.last {
			at++
		}
		m.from, m.to = from, at
		f.goThrough()
		day = m.last + 1
	}
}

// firstDay is the first day that anything is written under, or 0.
func (f *follower) firstDay() fact.Date {
	for _, e := range f.n.Entries {
		if e.Date != 0 {
			return e.Date
		}
	}
	return 0
}

func lastOfMonth(d fact.Date) fact.Date {
	y, m, _ := d.Civil()
	last, _ := fact.NewDate(y, m, fact.DaysIn(y, m))
	return last
}

func (f *follower) goThrough() {
	f.begin()
	f.survey()
	f.wear()
	f.charge()
	for i := f.month.from; i < f.month.to; i++ {
		if f.n.Entries[i].Date > f.terms.Until {
			return
		}
		f.entry(i)
	}
	if f.month.last <= f.terms.Until {
		f.end()
	}
}

// begin sets the sums of the weights to what they would be if nothing happened
// in the month.
func (f *follower) begin() {
	m := &f.month
	m.sums, m.due, m.unallocated = nil, m.due[:0], Load{}
	days := f.days()
	m.shared[fact.PlantDays] = splitter{of: f.bench * days}
	m.shared[fact.AreaDays] = splitter{of: f.benchRoom * days}
	m.shared[fact.Heads] = splitter{of: f.bench}
}

func (f *follower) days() int64 { return int64(f.month.last-f.month.first) + 1 }

// survey finds what the month's entries do to the weights, and what is to be
// shared.
func (f *follower) survey() {
	m := &f.month
	at := f.moves
	for i := m.from; i < m.to; i++ {
		e := f.n.Entries[i]
		rest := int64(m.last-f.day(e)) + 1 // counting ends with the day
		from := at
		for at < len(f.n.Moves) && f.n.Moves[at].Entry == e {
			at++
		}
		if at > from {
			f.measure(f.n.Moves[from:at], f.ends[from:at], rest)
		}
		if pass, ok := e.Effect.(*fact.Pass); ok && !pass.As.Given() && f.bears[i] > 0 {
			f.settle(e, f.bears[i]-1, rest)
		}
		if s, ok := lasting(e); ok {
			f.bring(e, s)
		} else if label, ok := shared(e); ok {
			l := f.sums(e)
			m.sums = append(m.sums, l)
			l[Shared], l[Bought], l[Material] = l[Bought].Add(l[Material]), money.Amount{}, money.Amount{}
			m.shared[f.shares.base(label, e.Date)].load.add(&l)
		}
	}
}

// measure counts the moves of an entry into the weights.
func (f *follower) measure(moves []nursery.Move, at []ends, rest int64) {
	for k := range moves {
		mv := &moves[k]
		n := int64(mv.N)
		if at[k].from >= 0 {
			p := f.stand(at[k].from, mv.FromState, -n, rest)
			if mv.To == nil && n > 0 && f.lots[at[k].from].stands[mv.FromState] {
				p.left += n
				f.month.shared[fact.Heads].of += n
			}
		}
		if at[k].to >= 0 {
			f.stand(at[k].to, mv.ToState, n, rest)
		}
	}
}

// stand books plants that come to stand, or below 0 stand no more, in a lot for
// the rest of the month.
func (f *follower) stand(lot int32, s fact.State, n, rest int64) *plot {
	p := f.plotOf(lot)
	p.plants += n
	if !f.lots[lot].stands[s] {
		return p
	}
	p.bench += n
	p.days += n * rest
	p.area += n * rest * p.room
	f.bench += n
	f.benchRoom += n * p.room
	f.month.shared[fact.PlantDays].of += n * rest
	f.month.shared[fact.AreaDays].of += n * rest * p.room
	f.month.shared[fact.Heads].of += n
	return p
}

// plotOf is the plot of a lot, with its weights as if nothing had moved if this
// is the first that is heard of it in the month.
func (f *follower) plotOf(lot int32) *plot {
	b := &f.lots[lot]
	if b.plot == 0 {
		f.plots = append(f.plots, plot{lot: lot})
		b.plot = int32(len(f.plots))
	}
	p := &f.plots[b.plot-1]
	for spots := b.spots; int(p.spots) < len(spots) && (p.spots == 0 || spots[p.spots].By.Date < f.month.first); p.spots++ {
		p.room = roomOf(spots[p.spots])
	}
	p.open(&f.month)
	return p
}

func (p *plot) open(m *month) {
	if p.month != m.number {
		p.month, p.left = m.number, 0
		p.days = p.bench * (int64(m.last-m.first) + 1)
		p.area = p.days * p.room
	}
}

// stands reports whether plants of a state stand in the nursery, and do not hang
// on a mother tree.
func stands(l *nursery.Lot, s fact.State) bool {
	if !l.OnMother() {
		return s != fact.Attached
	}
	return s == fact.Living || s == fact.Failed && l.Batch != nil && l.Batch.Kind != nursery.LayerBatch
}

// settle gives a lot that an entry potted or moved its new room.
func (f *follower) settle(e *fact.Entry, lot int32, rest int64) {
	b := &f.lots[lot]
	if b.plot == 0 {
		return
	}
	p := f.plotOf(lot)
	if int(p.spots) >= len(b.spots) || b.spots[p.spots].By != e {
		return
	}
	more := roomOf(b.spots[p.spots]) - p.room
	p.spots++
	p.room += more
	p.area += p.bench * rest * more
	f.benchRoom += p.bench * more
	f.month.shared[fact.AreaDays].of += p.bench * rest * more
}

// charge shares the month's costs by the weights. Lots that stand already are
// charged at once, the others when their first plants arrive. Plots where
// nothing stands any more are given up.
func (f *follower) charge() {
	m := &f.month
	var bases []fact.Base
	for base := range fact.Bases {
		s := &m.shared[base]
		s.begin()
		switch {
		case len(s.parts) == 0:
		case s.of == 0:
			m.unallocated.add(&s.load)
		default:
			bases = append(bases, base)
		}
	}
	var charged Load
	kept := f.plots[:0]
	for i := range f.plots {
		p := &f.plots[i]
		moved := p.month == m.number
		if !moved && p.plants == 0 {
			f.lots[p.lot].plot = 0
			continue
		}
		p.open(m)
		to := &p.accrued
		if moved && f.lots[p.lot].pool.count == 0 {
			m.due = append(m.due, Load{})
			p.due = int32(len(m.due))
			to = &m.due[p.due-1]
		}
		space, _ := money.New(p.area, 4) // of square centimetres
		to[Space], charged[Space] = to[Space].Add(space), charged[Space].Add(space)
		for _, base := range bases {
			m.shared[base].next(p.weight(base), to)
		}
		if len(kept) == i {
			kept = f.plots[:i+1]
			continue
		}
		kept = append(kept, *p)
		f.lots[p.lot].plot = int32(len(kept))
	}
	f.plots = kept
	for _, base := range bases {
		charged.add(&m.shared[base].load)
	}
	for _, l := range m.due { // is yet to come
		charged = charged.Minus(l)
	}
	f.emit(Flow{Kind: Spent, Day: m.first, Load: charged})
}

// settleCharge puts on the plants of a lot what it was charged while none of
// them moved. Twins bear as much for each plant.
func (f *follower) settleCharge(lot int32) {
	if lot < 0 || f.lots[lot].plot == 0 {
		return
	}
	b := &f.lots[lot]
	l := &f.plots[b.plot-1].accrued
	if l.isNone() {
		return
	}
	f.supposeCost(lot, l.Cost())
	b.pool.load.add(l)
	*l = Load{}
}

// weight is the plot's weight in the month by a base.
func (p *plot) weight(base fact.Base) int64 {
	switch base {
	case fact.AreaDays:
		return p.area
	case fact.Heads:
		return p.bench + p.left // each plant once, in the lot in which it was last
	}
	return p.days
}

// collect charges a lot whose first plants of the month have arrived.
func (f *follower) collect(lot int32, day fact.Date) {
	b := &f.lots[lot]
	if b.plot == 0 || f.plots[b.plot-1].due == 0 {
		return
	}
	p := &f.plots[b.plot-1]
	l := f.month.due[p.due-1]
	p.due = 0
	f.supposeCost(lot, l.Cost())
	b.pool.put(0, &l)
	f.emit(Flow{Kind: Spent, Day: day, Thing: b.lot, Load: l})
}

// end closes the month: what could not be shared, and wood that is over.
func (f *follower) end() {
	if u := f.month.unallocated; !u.isNone() {
		f.emit(Flow{Kind: Spent, Day: f.month.last, Load: u})
		f.emit(Flow{Kind: Unallocated, Day: f.month.last, Load: u})
	}
	f.throwOut()
}
