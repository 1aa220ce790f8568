package nursery

import (
	"fmt"
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/source"
)

// The six moves below are the only code that changes a count of plants. Each
// is written down in Moves, and none checks anything: the caller has made sure
// that it can be done.

// enter brings plants in from outside.
func (n *Nursery) enter(how fact.How, to *Lot, state fact.State, count int32) {
	if count == 0 {
		return
	}
	to.Entered += count
	to.put(state, count, past{})
	n.Moves = append(n.Moves, Move{Entry: n.now, How: how, To: to, ToState: state, N: count})
}

// passOn brings plants from one lot to another.
func (n *Nursery) passOn(how fact.How, from *Lot, fromState fact.State, to *Lot, state fact.State, count int32) {
	if count == 0 {
		return
	}
	p := from.take(fromState, count)
	if how == fact.Grafted {
		from.Out[fact.Worked] += count
	} else {
		from.Gone += count
	}
	if fromState == fact.Waiting && from.Batch != to.Batch {
		from.Batch.Left += count
	}
	to.Entered += count
	to.put(state, count, p)
	n.Moves = append(n.Moves, Move{Entry: n.now, How: how, From: from, FromState: fromState, To: to, ToState: state, N: count})
}

// exit takes plants of a lot out of the nursery. The exit is the term of the
// lot's sum that they go to; how is the act, which differs where a check finds
// plants dead. Plants that go unchecked leave their attempts without an outcome.
// It says what was known of them.
func (n *Nursery) exit(how, exit fact.How, from *Lot, state fact.State, count int32) past {
	if count == 0 {
		return past{}
	}
	p := from.take(state, count)
	from.Out[exit] += count
	if state == fact.Waiting && how != fact.Checked {
		from.Batch.Left += count
	}
	n.Moves = append(n.Moves, Move{Entry: n.now, How: how, From: from, FromState: state, N: count})
	return p
}

// change turns plants of a lot from one state to another, and says what was
// known of them. What is known of them from now on is now.
func (n *Nursery) change(how fact.How, lot *Lot, from, to fact.State, count int32, now past) past {
	if count == 0 {
		return past{}
	}
	before := lot.take(from, count)
	lot.put(to, count, now)
	n.Moves = append(n.Moves, Move{Entry: n.now, How: how, From: lot, FromState: from, To: lot, ToState: to, N: count})
	return before
}

// rebare changes how many living plants of a Beside lot have only the old top.
func (n *Nursery) rebare(how fact.How, lot *Lot, more int32) {
	lot.Bare += more
	n.Moves = append(n.Moves, Move{Entry: n.now, How: how, From: lot, FromState: fact.Living, To: lot, ToState: fact.Living, N: max(more, -more)})
}

// unexplain books what a stocktake found missing (or, below zero, over). What
// was found over and waits is an attempt that nobody wrote down.
func (n *Nursery) unexplain(lot *Lot, state fact.State, missing int32) {
	switch {
	case missing < 0:
		lot.put(state, -missing, past{})
		if state == fact.Waiting {
			lot.Batch.Made -= missing
		}
	default:
		lot.take(state, missing)
		if state == fact.Waiting {
			lot.Batch.Left += missing
		}
	}
	lot.Unexplained += missing
	n.Moves = append(n.Moves, Move{Entry: n.now, How: fact.Counted, From: lot, FromState: state, N: missing})
}

// A past is how many of some plants have more to them than their state says.
type past struct {
	late  int32 // failed: had taken before
	upper int32 // failed: the interstock lives
	blur  bool  // failed: upper is only how many it may be
	bare  int32 // living: only the old top lives, of a graft beside it
}

// take takes plants of a state out of a lot and says what was known of them.
// Where nobody can tell which were meant, those go first of which nothing is
// known.
func (l *Lot) take(state fact.State, count int32) past {
	on := l.On[state]
	l.On[state] -= count
	var p past
	switch state {
	case fact.Living:
		p.bare = max(0, count-(on-l.Bare))
	case fact.Failed:
		rest := max(0, count-(on-l.late-l.upper))
		p.upper = min(rest, l.upper)
		p.late = rest - p.upper
		p.blur = l.blurred || count < on && l.upper > 0 && l.upper < on
		l.blurred = p.blur && count < on
	}
	l.Bare -= p.bare
	l.late -= p.late
	l.upper -= p.upper
	return p
}

// put brings plants of a state into a lot, with what is known of them.
func (l *Lot) put(state fact.State, count int32, p past) {
	l.On[state] += count
	switch state {
	case fact.Living:
		l.Bare += p.bare
	case fact.Failed:
		l.late += p.late
		l.upper += p.upper
		l.blurred = l.blurred || p.blur
	}
}

// most is more than any nursery has of one thing. It keeps all sums well within
// their 32 bits.
const most = 1_000_000_000

// bounded refuses an entry that would bring a sum above most.
func (n *Nursery) bounded(at source.Span, already int32, more int64, what, of string) bool {
	if int64(already)+more <= most {
		return true
	}
	n.refuse(at, "too-many", fmt.Sprintf("this makes %d %s of %s, more than any nursery has; mend the number", int64(already)+more, what, of))
	return false
}

// Audit checks the sums that must hold after every entry and says what is
// wrong with the first that does not.
func (n *Nursery) Audit() error {
	waiting := make(map[*Batch]int32, len(n.Batches))
	for _, l := range n.Lots {
		if err := l.audit(); err != nil {
			return err
		}
		waiting[l.Batch] += l.On[fact.Waiting]
	}
	for _, b := range n.Batches {
		if err := b.audit(waiting[b]); err != nil {
			return err
		}
	}
	if waiting[nil] != 0 {
		return fmt.Errorf("%d plants wait without an attempt", waiting[nil])
	}
	return nil
}

func (l *Lot) audit() error {
	sum := int64(l.Gone) + int64(l.Unexplained)
	for how, out := range l.Out {
		if out < 0 {
			return fmt.Errorf("lot %s: %s is %d", l.Name, fact.How(how), out)
		}
		sum += int64(out)
	}
	for s, on := range l.On {
		if on < 0 {
			return fmt.Errorf("lot %s: %s is %d", l.Name, fact.State(s), on)
		}
		sum += int64(on)
	}
	switch {
	case sum != int64(l.Entered):
		return fmt.Errorf("lot %s: %d entered, but %d are accounted for", l.Name, l.Entered, sum)
	case l.Gone < 0 || l.Returned < 0 || l.Returned > l.Out[fact.Sold]:
		return fmt.Errorf("lot %s: gone %d, returned %d", l.Name, l.Gone, l.Returned)
	case l.Bare < 0 || l.Bare > l.On[fact.Living] || l.late < 0 || l.upper < 0 || l.late+l.upper > l.On[fact.Failed]:
		return fmt.Errorf("lot %s: bare %d, late %d, upper %d", l.Name, l.Bare, l.late, l.upper)
	case l.Limbs && l.Mother == nil, l.On[fact.Attached] > 0 && !l.OnMother():
		return fmt.Errorf("lot %s: hangs on nothing", l.Name)
	}
	return nil
}

func (b *Batch) audit(waiting int32) error {
	for _, v := range []int32{b.Took, b.Failed, b.Dead, b.Left, b.Waiting(), b.Late, b.Took - b.Late, b.Failed - b.Dead - b.Upper - b.Lower,
		b.Upper, b.Lower, b.ScionsKnown - b.ScionsAlive} {
		if v < 0 {
			return fmt.Errorf("batch %s: made %d, took %d, failed %d (dead %d, upper %d, lower %d), left %d, late %d, scions %d of %d",
				b.Lot.Name, b.Made, b.Took, b.Failed, b.Dead, b.Upper, b.Lower, b.Left, b.Late, b.ScionsAlive, b.ScionsKnown)
		}
	}
	if waiting != b.Waiting() {
		return fmt.Errorf("batch %s: %d attempts wait, but %d plants do", b.Lot.Name, b.Waiting(), waiting)
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
