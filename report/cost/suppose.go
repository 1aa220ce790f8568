package cost

import (
	"math/bits"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/money"
)

// fine is how many parts a plant has where the take is supposed to be another.
const fine = 1_000_000

// Supposed is what a flow, or what stands, would be if another take of grafts is
// supposed: of each hundred that got a verdict, so many more took than did. What
// then happens to plants happens to the same share of them, and what a lot bears
// is as much for each of its plants. A check of which none took stays as it is.
type Supposed struct {
	N, Living int64 // plants, in millionths
	Cost      money.Amount
	Revenue   money.Amount
}

// twin is a lot as it would be.
type twin struct {
	on            [fact.States]int64
	pool          money.Pool
	entered, gone int64
}

// twinsOf are those of a lot, one for each take that is supposed.
func (f *follower) twinsOf(lot int32) []twin {
	k := len(f.terms.Takes)
	return f.twins[int(lot)*k : (int(lot)+1)*k]
}

// suppose reckons how many plants take part in the moves of an entry for each
// supposed take, one after the other.
func (f *follower) suppose(moves []nursery.Move, at []ends) {
	clear(f.supposed)
	for s := range f.terms.Takes {
		f.counts[s] = append(f.counts[s][:0], make([]int64, len(moves))...)
	}
	check := f.isGraftCheck(moves, at)
	for s, points := range f.terms.Takes {
		if check {
			f.sway(s, points, moves, at, f.counts[s])
		}
	}
	for k := range moves {
		mv := &moves[k]
		if !check {
			for s := range f.terms.Takes {
				f.counts[s][k] = f.scaled(s, mv, at[k].from)
				f.shift(s, mv, at[k], f.counts[s][k])
			}
		}
		if at[k].from >= 0 { // as it was
			f.lots[at[k].from].was[mv.FromState] -= int64(mv.N)
		}
		if at[k].to >= 0 {
			f.lots[at[k].to].was[mv.ToState] += int64(mv.N)
		}
	}
}

// scaled is the same share of the plants in a state as the move takes.
func (f *follower) scaled(s int, mv *nursery.Move, from int32) int64 {
	n := int64(mv.N)
	if from >= 0 && n > 0 {
		if was := f.lots[from].was[mv.FromState]; was > 0 {
			return mulDiv(f.twinsOf(from)[s].on[mv.FromState], n, was)
		}
	}
	return n * fine
}

// shift books a move in the counts by state.
func (f *follower) shift(s int, mv *nursery.Move, at ends, n int64) {
	if at.from >= 0 {
		f.twinsOf(at.from)[s].on[mv.FromState] -= n
	}
	if at.to >= 0 {
		f.twinsOf(at.to)[s].on[mv.ToState] += n
	}
}

// isGraftCheck reports whether the moves of an entry are verdicts on grafts.
func (f *follower) isGraftCheck(moves []nursery.Move, at []ends) bool {
	if at[0].from < 0 || !f.lots[at[0].from].grafted {
		return false
	}
	_, check := moves[0].Entry.Effect.(*fact.Check)
	return check
}

// sway moves the verdicts of a check: the first move is of those that took, the
// others share what is left as they did. Where nothing is left that failed, what
// no longer takes waits for ever.
func (f *follower) sway(s, points int, moves []nursery.Move, at []ends, counts []int64) {
	var known int64
	for k := range moves {
		known += int64(moves[k].N)
	}
	lot := at[0].from
	all := mulDiv(f.twinsOf(lot)[s].on[fact.Waiting], known, f.lots[lot].was[fact.Waiting])
	if someTook(moves[0].Entry.Effect.(*fact.Check)) {
		took := int64(moves[0].N)
		counts[0] = min(max(mulDiv(all, took, known)+all*int64(points)/100, 0), all)
		f.shift(s, &moves[0], at[0], counts[0])
		all, known = all-counts[0], known-took
		moves, at, counts = moves[1:], at[1:], counts[1:]
	}
	for k := range moves {
		n := int64(moves[k].N)
		counts[k] = mulDiv(all, n, known)
		all, known = all-counts[k], known-n
		f.shift(s, &moves[k], at[k], counts[k])
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

// mulDiv is a × b / c, cut off: none is below 0, and b at most c. It is 0 where c
// is.
func mulDiv(a, b, c int64) int64 {
	if c == 0 {
		return 0
	}
	hi, lo := bits.Mul64(uint64(a), uint64(b))
	q, _ := bits.Div64(hi, lo, uint64(c))
	return int64(q)
}

// supposeCost books a cost on the twins of a lot: as much for each of the plants
// that stand.
func (f *follower) supposeCost(lot int32, cost money.Amount) {
	twins := f.twinsOf(lot)
	if len(twins) == 0 || cost == (money.Amount{}) {
		return
	}
	plants := f.lots[lot].pool.count
	for s := range twins {
		t := &twins[s]
		part := cost
		if plants > 0 {
			part = cost.MulFrac(t.pool.Count(), plants*fine)
		}
		_ = t.pool.Put(0, part)
	}
}

// supposeMove takes plants from lot to lot for each supposed take; k is the move
// among those of the entry.
func (f *follower) supposeMove(at ends, k int) {
	for s := range f.terms.Takes {
		n := f.counts[s][k]
		var cost money.Amount
		if at.from >= 0 {
			from := &f.twinsOf(at.from)[s]
			n = min(n, from.pool.Count())
			cost, _ = from.pool.Take(n)
		}
		if at.to >= 0 {
			to := &f.twinsOf(at.to)[s]
			_ = to.pool.Put(n, cost)
			to.entered += n
		} else {
			f.supposed[s].N += n
			f.supposed[s].Cost = f.supposed[s].Cost.Add(cost)
		}
	}
}

// supposeLoss takes out plants that died, for each supposed take.
func (f *follower) supposeLoss(lot int32, k int, share money.Ratio) {
	for s := range f.terms.Takes {
		t := &f.twinsOf(lot)[s]
		n := min(f.counts[s][k], t.pool.Count())
		cost, _ := t.pool.Lose(n, money.Normal{Share: share, Entered: t.entered, Gone: t.gone})
		t.gone += n
		f.supposed[s] = Supposed{N: n, Cost: cost}
	}
}

// supposeFound puts plants into a lot that a stocktake found.
func (f *follower) supposeFound(lot int32, k int) {
	for s := range f.terms.Takes {
		n := -f.counts[s][k]
		t := &f.twinsOf(lot)[s]
		_ = t.pool.Put(n, money.Amount{})
		t.entered += n
	}
}

// supposeAt is what stands of a lot for each supposed take.
func (f *follower) supposeAt(lot int32) []Supposed {
	var list []Supposed
	for _, t := range f.twinsOf(lot) {
		list = append(list, Supposed{N: t.pool.Count(), Living: t.on[fact.Living], Cost: t.pool.Cost()})
	}
	return list
}
