package nursery

import (
	"fmt"

	"github.com/budstick/budstick/grammar/fact"
)

// stocktake compares what stands with what is reckoned, and books a difference
// that the grower accepts.
func (n *Nursery) stocktake(f *fact.Stocktake) {
	var book int32
	var lots []*Lot
	for _, name := range f.Lots {
		l, ok := n.lot(name)
		if !ok {
			return
		}
		if l.Limbs {
			n.refuse(name.Span, "wrong-kind", l.Name+" is limbs of a tree, which are not counted as plants", l.Name)
			return
		}
		lots = append(lots, l)
		book += l.Free(f.State)
	}
	accepted := f.Missing.N - f.Over.N
	if f.Count.N+accepted != book {
		n.differs(f, lots, book)
		return
	}
	if accepted == 0 {
		return
	}
	state := f.Of
	if state == fact.AnyState {
		state = orLiving(f.State)
	}
	if lots[0].On[state] < accepted {
		n.refuse(f.Missing.Span, "too-many", fmt.Sprintf("%d are missing, but %s has %d %s; say which are missing: %d missing %s",
			accepted, lots[0].Name, lots[0].On[state], state, accepted, fact.Failed), lots[0].Name)
		return
	}
	n.unexplain(lots[0], state, accepted)
	leftBefore(lots[0], state, max(accepted, 0))
	if state == fact.Waiting && accepted < 0 && lots[0].Batch != nil {
		lots[0].Batch.Made -= accepted
	}
	lots[0].settleBare()
}

// differs refuses a count that is not what is reckoned and shows both.
func (n *Nursery) differs(f *fact.Stocktake, lots []*Lot, book int32) {
	what := "plants"
	if f.State != fact.AnyState {
		what = f.State.String() + " plants"
	}
	about := make([]string, len(lots))
	for i, l := range lots {
		about[i] = l.Name
	}
	message := fmt.Sprintf("%d counted, but by the book %d %s stand there", f.Count.N+f.Missing.N-f.Over.N, book, what)
	if len(lots) == 1 {
		message = fmt.Sprintf("%d counted, but by the book %s has %d %s standing (%s)", f.Count.N, lots[0].Name, book, what, lots[0].states())
		if d := book - f.Count.N; d > 0 {
			message += fmt.Sprintf("; if nobody knows why, write: count %s %d, %d missing", spell(lots[0].Name), f.Count.N, d)
		} else if d < 0 {
			message += fmt.Sprintf("; if nobody knows why, write: count %s %d, %d over", spell(lots[0].Name), f.Count.N, -d)
		}
	}
	n.refuse(f.Count.Span, "count-differs", message, about...)
}
