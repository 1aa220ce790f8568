package cost

import (
	"math/bits"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
)

// A Change is something supposed, to see what it would have been worth: the
// journal is followed as if it had been so. What then happens to plants happens
// to the same share of them, and what was spent on a lot by name is as much for
// each of its plants; shared costs stay what they are, and are spread over
// others.
type Change struct {
	// Take is how many of each hundred grafts that were checked took, more than
	// did; below 0, fewer. A lot of which all took, or none, stays as it is where
	// it can't be moved.
	Take int
	// Faster is by how many hours each hundred grafts were made faster, at most by
	// what they took.
	Faster int
}

// fine is how many parts a plant has where one is supposed to be more or less.
const fine = 1_000_000

func (c Change) unit() int64 {
	if c.Take != 0 {
		return fine
	}
	return 1
}

// supposed is how many plants, in units, take part in the moves of one entry,
// one after the other.
func (f *follower) supposed(moves []nursery.Move) []int64 {
	m := &f.month
	from := len(m.moved)
	for k := range moves {
		m.moved = append(m.moved, int64(moves[k].N))
	}
	counts := m.moved[from:]
	if f.unit == 1 {
		return counts
	}
	if k, ok := f.graftCheck(moves); ok {
		f.sway(moves[:k], counts[:k])
		moves, counts = moves[k:], counts[k:]
	}
	for k := range moves {
		counts[k] = f.scaled(&moves[k])
		f.shift(&moves[k], counts[k])
	}
	return m.moved[from:]
}

// scaled is the same share of the plants in a state as the move takes.
func (f *follower) scaled(mv *nursery.Move) int64 {
	n := int64(mv.N)
	if mv.From != nil {
		b := f.bookOf(mv.From)
		if was := b.was[mv.FromState]; was > 0 && n > 0 {
			return mulDiv(b.on[mv.FromState], n, was)
		}
	}
	return n * f.unit
}

// shift books a move in the counts by state, both as it was and as supposed.
func (f *follower) shift(mv *nursery.Move, n int64) {
	if mv.From != nil {
		b := f.bookOf(mv.From)
		b.on[mv.FromState] -= n
		b.was[mv.FromState] -= int64(mv.N)
	}
	if mv.To != nil {
		b := f.bookOf(mv.To)
		b.on[mv.ToState] += n
		b.was[mv.ToState] += int64(mv.N)
	}
}

// graftCheck reports how many of the moves are the verdicts of a check of
// grafts.
func (f *follower) graftCheck(moves []nursery.Move) (int, bool) {
	if len(moves) == 0 || f.terms.Change.Take == 0 {
		return 0, false
	}
	l := moves[0].From
	if _, ok := moves[0].Entry.Effect.(*fact.Check); !ok || l == nil || l.Limbs || l.Batch == nil || l.Batch.Kind != nursery.GraftBatch {
		return 0, false
	}
	return len(moves), true
}

// sway moves the verdicts of a check by the change: the first move is of those
// that took, the others share what is left as they did. Where nothing is left
// that failed, what no longer takes waits for ever.
func (f *follower) sway(moves []nursery.Move, counts []int64) {
	var known int64
	for k := range moves {
		known += int64(moves[k].N)
	}
	b := f.bookOf(moves[0].From)
	all := mulDiv(b.on[fact.Waiting], known, b.was[fact.Waiting])
	took := int64(0)
	if someTook(moves[0].Entry.Effect.(*fact.Check)) {
		took = int64(moves[0].N)
		counts[0] = mulDiv(all, took, known) + all*int64(f.terms.Change.Take)/100
		counts[0] = min(max(counts[0], 0), all)
		f.shift(&moves[0], counts[0])
		moves, counts, all = moves[1:], counts[1:], all-counts[0]
	}
	left := known - took
	for k := range moves {
		n := int64(moves[k].N)
		counts[k] = mulDiv(all, n, left)
		all, left = all-counts[k], left-n
		f.shift(&moves[k], counts[k])
	}
}

func someTook(c *fact.Check) bool {
	for _, o := range c.Outcomes {
		if o.Verdict == fact.Took && o.Count.N > 0 {
			return true
		}
	}
	return false
}

// mulDiv is a × b / c, cut off; all are at least 0, and b is at most c or the
// result still fits.
func mulDiv(a, b, c int64) int64 {
	if c == 0 {
		return 0
	}
	hi, lo := bits.Mul64(uint64(a), uint64(b))
	q, _ := bits.Div64(hi, lo, uint64(c))
	return int64(q)
}

// pace is what share of its time a graft would have taken, as supposed.
func (f *follower) pace(e *fact.Entry) (num, den int64) {
	g, ok := e.Effect.(*fact.Graft)
	if !ok || f.terms.Change.Faster == 0 {
		return 1, 1
	}
	var minutes fact.Decimal
	for _, w := range e.Workers() {
		minutes = minutes.Plus(w.Minutes)
	}
	den = minutes.Coef * 10
	saved := int64(g.Count.N) * int64(f.terms.Change.Faster) * 6 // tenths of a minute
	for range minutes.Scale {
		saved *= 10
	}
	if den <= 0 {
		return 1, 1
	}
	return max(den-saved, 0), den
}
