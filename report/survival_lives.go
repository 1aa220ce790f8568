package report

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/stat"
)

// A life is how the attempts of one batch ended, or how long they have lasted,
// by days since they were made. An attempt ends when its top dies, though the
// stock may live.
type life struct {
	batch   *nursery.Batch
	deaths  []death
	sales   []stat.Exit // withdrawn, and may come back
	others  []stat.Exit // withdrawn otherwise: given, planted, joined, culled, used as stock
	living  []stat.Exit // alive when the report is made
	unseen  int         // never had a verdict; they say nothing
	culled  int
	joined  int
	returns int
}

// A death was found on a day; the plant was seen alive, if ever, on another
// before it.
type death struct {
	lastAlive, found, count int
	top                     bool // the top alone: it may yet push
}

// exits are all ends, for the estimate of survival.
func (l *life) exits() []stat.Exit {
	var out []stat.Exit
	for _, d := range l.deaths {
		out = append(out, stat.Exit{Day: d.found, Died: d.count})
	}
	for _, list := range [][]stat.Exit{l.sales, l.others, l.living} {
		out = append(out, list...)
	}
	return out
}

// watches are the ends as checks saw them, for the estimate that leaves open
// when between two checks a plant died.
func (l *life) watches() []stat.Watch {
	var out []stat.Watch
	for _, d := range l.deaths {
		out = append(out, stat.Watch{LastAlive: d.lastAlive, FirstDead: d.found, Count: d.count})
	}
	for _, list := range [][]stat.Exit{l.sales, l.others, l.living} {
		for _, e := range list {
			out = append(out, stat.Watch{LastAlive: e.Day, FirstDead: stat.Never, Count: e.Withdrawn})
		}
	}
	return out
}

// tally is how many of the attempts live on or left alive, of all that say
// anything.
func (l *life) tally() stat.Tally {
	var t stat.Tally
	for _, e := range l.exits() {
		t.X += e.Withdrawn
		t.N += e.Withdrawn + e.Died
	}
	return t
}

// A biographer writes the lives of batches from the moves of their plants.
type biographer struct {
	lives map[*nursery.Batch]*life
	// kept are, of lots whose old tops were left, the living plants and how many
	// of them are bare: their attempt has ended.
	kept map[*nursery.Lot]keptTop
	// judged is the last check read of a lot that keeps its old tops.
	judged *fact.Entry
}

type keptTop struct{ living, bare int32 }

// livesOf follows the batches up to the end of a day.
func livesOf(n *nursery.Nursery, batches []*nursery.Batch, asAt fact.Date) []*life {
	w := biographer{lives: make(map[*nursery.Batch]*life, len(batches)), kept: map[*nursery.Lot]keptTop{}}
	out := make([]*life, len(batches))
	for i, b := range batches {
		out[i] = &life{batch: b}
		w.lives[b] = out[i]
	}
	for i := range n.Moves {
		m := &n.Moves[i]
		if m.From == nil || m.From.Batch == nil {
			continue
		}
		if l := w.lives[m.From.Batch]; l != nil {
			w.move(l, m)
		}
	}
	for _, e := range n.Entries {
		if f, ok := e.Effect.(*fact.Return); ok {
			w.cameBack(n, e, f)
		}
	}
	for _, lot := range n.Lots {
		if l := w.lives[lot.Batch]; l != nil {
			l.stillThere(lot, w.kept[lot].bare, asAt)
		}
	}
	return out
}

// move reads one move of plants of the batch.
func (w *biographer) move(l *life, m *nursery.Move) {
	if m.FromState == fact.Failed {
		if m.How == fact.Revived {
			l.revive(int(m.N))
		}
		return
	}
	if m.From.Beside {
		w.beside(l, m)
		return
	}
	switch within := m.To != nil && m.To.Batch == l.batch; {
	case within && m.ToState == fact.Failed:
		l.die(m, m.N, true)
	case within:
	case died(m):
		l.die(m, m.N, false)
	default:
		l.withdraw(m, m.N)
	}
}

// die books plants that were found dead, or whose top was.
func (l *life) die(m *nursery.Move, n int32, top bool) {
	if n == 0 {
		return
	}
	found := l.age(m.Entry.Day())
	lastAlive := 0
	if m.FromState != fact.Waiting {
		lastAlive = l.age(lookBefore(m.From, m.Entry))
	}
	l.deaths = append(l.deaths, death{min(lastAlive, found-1), found, int(n), top})
}

// age is the days from the attempt to a day.
func (l *life) age(day fact.Date) int { return int(max(0, day-l.batch.Day)) }

// lookBefore is the last day before an entry on which somebody had to do with
// the lot.
func lookBefore(l *nursery.Lot, before *fact.Entry) fact.Date {
	day := l.Made.Day()
	for _, e := range l.Entries {
		if e == before {
			break
		}
		if d := e.Day(); d < before.Day() {
			day = max(day, d)
		}
	}
	return day
}

// revive takes back deaths of tops that pushed after all, the last first.
func (l *life) revive(n int) {
	for i := len(l.deaths) - 1; i >= 0 && n > 0; i-- {
		if d := &l.deaths[i]; d.top {
			back := min(n, d.count)
			d.count -= back
			n -= back
		}
	}
}

// beside reads a move of a lot whose old tops were left. A new top that failed
// leaves a plant that lives, but is bare; where some leave, those with the new
// top go first.
func (w *biographer) beside(l *life, m *nursery.Move) {
	from := w.kept[m.From]
	within := m.To != nil && m.To.Batch == l.batch
	var bare int32
	if m.FromState == fact.Living && m.From != m.To {
		bare = max(0, m.N-(from.living-from.bare))
		w.kept[m.From] = keptTop{from.living - m.N, from.bare - bare}
	}
	switch {
	case m.How == fact.Checked && within:
		failed := w.failedBeside(m)
		l.die(m, failed, true)
		w.kept[m.From] = keptTop{from.living + m.N, from.bare + failed}
	case m.How == fact.FailedLate && within:
		l.die(m, m.N, true)
		w.kept[m.From] = keptTop{from.living, from.bare + m.N}
	case m.How == fact.Revived && within:
		l.revive(int(m.N))
		w.kept[m.From] = keptTop{from.living, from.bare - m.N}
	case within && m.ToState == fact.Living:
		to := w.kept[m.To]
		w.kept[m.To] = keptTop{to.living + m.N, to.bare + bare}
	case within:
	case died(m):
		l.die(m, m.N-bare, false)
	default:
		l.withdraw(m, m.N-bare)
	}
}

// failedBeside is how many new tops a check of such a lot found dead. The check
// makes two moves that look the same, so it is read at the first.
func (w *biographer) failedBeside(m *nursery.Move) int32 {
	if w.judged == m.Entry {
		return 0
	}
	w.judged = m.Entry
	failed := int32(0)
	for _, o := range m.Entry.Effect.(*fact.Check).Outcomes {
		switch o.Verdict {
		case fact.Fails, fact.Upper, fact.Lower:
			failed += o.Count.N
		}
	}
	return failed
}

// withdraw books plants that left alive. Those that waited had never been seen
// to live and say nothing; what a stocktake finds over was there all along.
func (l *life) withdraw(m *nursery.Move, count int32) {
	n := int(count)
	switch {
	case n <= 0:
		return
	case m.FromState == fact.Waiting:
		l.unseen += n
		return
	}
	exit := stat.Exit{Day: l.age(m.Entry.Day()), Withdrawn: n}
	switch m.How {
	case fact.Sold:
		l.sales = append(l.sales, exit)
		return
	case fact.Culled:
		l.culled += n
	case fact.Joined:
		l.joined += n
	}
	l.others = append(l.others, exit)
}

// cameBack corrects a sale by what came back of it: dead, without its top, or
// alive so long. The last sold are taken to come back first.
func (w *biographer) cameBack(n *nursery.Nursery, e *fact.Entry, f *fact.Return) {
	thing, _ := n.Thing(f.Of.Text)
	lot, ok := thing.(*nursery.Lot)
	if !ok {
		return
	}
	l := w.lives[lot.Batch]
	if l == nil {
		return
	}
	left := int(f.Count.N)
	for i := len(l.sales) - 1; i >= 0 && left > 0; i-- {
		sale := &l.sales[i]
		back := min(left, sale.Withdrawn)
		sale.Withdrawn -= back
		left -= back
		l.returns += back
		day := max(l.age(e.Day()), sale.Day)
		if f.Dead || f.State == fact.Failed {
			l.deaths = append(l.deaths, death{min(sale.Day, day-1), day, back, false})
		} else {
			l.others = append(l.others, stat.Exit{Day: day, Withdrawn: back})
		}
	}
}

// stillThere books what stands in a lot when the report is made.
func (l *life) stillThere(lot *nursery.Lot, bare int32, asAt fact.Date) {
	l.unseen += int(lot.On[fact.Waiting])
	if n := lot.On[fact.Living] - bare + lot.On[fact.Attached]; n > 0 {
		l.living = append(l.living, stat.Exit{Day: l.age(asAt), Withdrawn: int(n)})
	}
}
