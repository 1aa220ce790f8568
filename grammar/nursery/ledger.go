package nursery

import (
	"fmt"
	"strings"

	"github.com/budstick/budstick/grammar/fact"
)

// The three moves below are the only code that changes a count of plants. Each
// is written down in Moves, and none checks anything: the caller has made sure
// that it can be done.

// enter brings plants into a lot, from another lot or from outside.
func (n *Nursery) enter(how fact.How, from *Lot, fromState fact.State, to *Lot, state fact.State, count int32) {
	if count == 0 {
		return
	}
	to.Entered += count
	to.On[state] += count
	n.Moves = append(n.Moves, Move{n.now, how, from, to, fromState, state, count})
}

// pass brings plants from one lot to another.
func (n *Nursery) passOn(how fact.How, from *Lot, fromState fact.State, to *Lot, state fact.State, count int32) {
	if count == 0 {
		return
	}
	from.On[fromState] -= count
	if how == fact.Grafted {
		from.Out[fact.Worked] += count
	} else {
		from.Gone += count
	}
	n.enter(how, from, fromState, to, state, count)
}

// exit takes plants of a lot out of the nursery. The exit is the term of the
// lot's sum that they go to; how is the act, which differs where a check finds
// plants dead.
func (n *Nursery) exit(how, exit fact.How, from *Lot, state fact.State, count int32) {
	if count == 0 {
		return
	}
	from.On[state] -= count
	from.Out[exit] += count
	n.Moves = append(n.Moves, Move{n.now, how, from, nil, state, fact.AnyState, count})
}

// change turns plants of a lot from one state to another.
func (n *Nursery) change(how fact.How, lot *Lot, from, to fact.State, count int32) {
	if count == 0 {
		return
	}
	lot.On[from] -= count
	lot.On[to] += count
	n.Moves = append(n.Moves, Move{n.now, how, lot, lot, from, to, count})
}

// unexplain books what a stocktake found missing (or, below zero, over).
func (n *Nursery) unexplain(lot *Lot, state fact.State, missing int32) {
	lot.On[state] -= missing
	lot.Unexplained += missing
	n.Moves = append(n.Moves, Move{n.now, fact.Counted, lot, nil, state, fact.AnyState, missing})
}

// leftBefore books plants that went while they waited for their check.
func leftBefore(lot *Lot, state fact.State, count int32) {
	if state == fact.Waiting && lot.Batch != nil {
		lot.Batch.Left += count
	}
}

// Audit checks the sums that must hold after every entry and says what is
// wrong with the first that does not.
func (n *Nursery) Audit() error {
	for _, l := range n.Lots {
		if err := l.audit(); err != nil {
			return err
		}
	}
	for _, b := range n.Batches {
		if err := b.audit(); err != nil {
			return err
		}
	}
	return nil
}

func (l *Lot) audit() error {
	sum := l.Plants() + l.Gone + l.Unexplained
	for how, out := range l.Out {
		if out < 0 {
			return fmt.Errorf("lot %s: %s is %d", l.Name, fact.How(how), out)
		}
		sum += out
	}
	for s, on := range l.On {
		if on < 0 {
			return fmt.Errorf("lot %s: %s is %d", l.Name, fact.State(s), on)
		}
	}
	if sum != l.Entered {
		return fmt.Errorf("lot %s: %d entered, but %d are accounted for", l.Name, l.Entered, sum)
	}
	if l.Gone < 0 || l.Bare < 0 || l.Bare > l.On[fact.Living] || l.Returned > l.Out[fact.Sold] {
		return fmt.Errorf("lot %s: gone %d, bare %d, returned %d", l.Name, l.Gone, l.Bare, l.Returned)
	}
	return nil
}

func (b *Batch) audit() error {
	for _, v := range []int32{b.Took, b.Failed, b.Dead, b.Left, b.Waiting(), b.Late, b.Took - b.Late, b.Failed - b.Dead, b.Failed - b.Upper - b.Lower} {
		if v < 0 {
			return fmt.Errorf("batch %s: made %d, took %d, failed %d (dead %d, upper %d, lower %d), left %d, late %d",
				b.Lot.Name, b.Made, b.Took, b.Failed, b.Dead, b.Upper, b.Lower, b.Left, b.Late)
		}
	}
	return nil
}

// states says what stands in a lot, for messages: 3 living, 2 failed.
func (l *Lot) states() string {
	var parts []string
	for s := fact.Waiting; s < fact.States; s++ {
		if l.On[s] > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", l.On[s], s))
		}
	}
	if len(parts) == 0 {
		return "nothing"
	}
	return strings.Join(parts, ", ")
}
