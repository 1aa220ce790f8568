package nursery

import (
	"fmt"
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
)

// stocktake compares what stands with what is reckoned, and books a difference
// that the grower accepts.
func (n *Nursery) stocktake(f *fact.Stocktake) {
	book := int64(0)
	lots := make([]*Lot, 0, 4)
	for _, name := range f.Lots {
		l, ok := n.lot(name)
		switch {
		case !ok:
			return
		case l.Limbs:
			n.refuse(name.Span, "wrong-kind", l.Name+" is limbs of a tree, which are not counted as plants", l.Name)
			return
		case slices.Contains(lots, l):
			n.refuse(name.Span, "count-differs", l.Name+" stands twice in this list; name each lot once", l.Name)
			return
		}
		lots = append(lots, l)
		book += int64(l.Free(f.State))
	}
	accepted := f.Missing.N - f.Over.N
	if int64(f.Count.N)+int64(accepted) != book {
		n.differs(f, lots, book)
		return
	}
	if accepted != 0 {
		n.accept(f, lots[0], accepted)
	}
}

// accept books a difference of the one lot that was counted: plants missing or, below zero, over.
func (n *Nursery) accept(f *fact.Stocktake, l *Lot, missing int32) {
	state := f.Of
	if state == fact.AnyState {
		state = orLiving(f.State)
	}
	at := f.Missing.Span
	if missing < 0 {
		at = f.Over.Span
	}
	switch {
	case f.State != fact.AnyState && f.State != state:
		n.refuse(at, "wrong-kind", fmt.Sprintf("only what is %s was counted, so what is %s can't have been found missing or over", f.State, state), l.Name)
	case missing > 0 && l.Free(state) < missing:
		n.refuse(at, "too-many", fmt.Sprintf("%d %s missing, but %s has %d %s that could be; say which are missing: %d missing %s",
			missing, isOrAre(missing), l.Name, l.Free(state), state, missing, fact.Failed), l.Name)
	case missing < 0 && !l.couldHold(state):
		n.refuse(at, "wrong-kind", fmt.Sprintf("%s can't have plants that are %s and stand free, so none of those can be over", l.Name, state), l.Name)
	case missing < 0 && !n.bounded(at, l.Entered-l.Unexplained, -int64(missing), "plants", l.Name):
	case missing < 0 && state == fact.Waiting && !n.bounded(at, 0, (int64(l.Batch.Made)-int64(missing))*int64(l.Batch.ScionsEach), "scions", l.Name):
	default:
		n.unexplain(l, state, missing)
	}
}

// couldHold reports whether plants of a state can stand free in a lot: what
// waits is part of an attempt, and what failed was tried.
func (l *Lot) couldHold(s fact.State) bool {
	kind, tried := l.kind()
	switch s {
	case fact.Living:
		return true
	case fact.Failed:
		return tried && kind != SeedBatch && !l.hangs(s)
	case fact.Waiting:
		return l.Batch != nil && !l.Seed() && !l.hangs(s)
	}
	return false
}

// differs refuses a count that is not what is reckoned and shows both.
func (n *Nursery) differs(f *fact.Stocktake, lots []*Lot, book int64) {
	what := "plants"
	if f.State != fact.AnyState {
		what = f.State.String() + " plants"
	}
	about := make([]string, len(lots))
	var related []finding.Related
	for i, l := range lots {
		about[i] = l.Name
	}
	message := fmt.Sprintf("%d counted, but by the book %d %s stand there", f.Count.N+f.Missing.N-f.Over.N, book, what)
	switch {
	case len(lots) == 1 && f.Missing.Given:
		message = fmt.Sprintf("%d counted and %d missing make %d, but by the book %s has %d %s standing (%s)",
			f.Count.N, f.Missing.N, f.Count.N+f.Missing.N, lots[0].Name, book, what, lots[0].states())
	case len(lots) == 1 && f.Over.Given:
		message = fmt.Sprintf("%d counted, %d of them over, leave %d, but by the book %s has %d %s standing (%s)",
			f.Count.N, f.Over.N, f.Count.N-f.Over.N, lots[0].Name, book, what, lots[0].states())
	case len(lots) == 1:
		message = fmt.Sprintf("%d counted, but by the book %s has %d %s standing (%s)", f.Count.N, lots[0].Name, book, what, lots[0].states())
		unknown := fmt.Sprintf("; if nobody knows why, write: count %s %d, ", spell(lots[0].Name), f.Count.N)
		if d := book - int64(f.Count.N); d > 0 {
			unknown += fmt.Sprintf("%d missing", d)
		} else {
			unknown += fmt.Sprintf("%d over", -d)
		}
		unknown, related = n.orMend(lots[0].Name, unknown)
		message += unknown
	}
	n.refuse(f.Count.Span, "count-differs", message, about...).Related = related
}
