package nursery

import (
	"fmt"

	"github.com/budstick/budstick/grammar/fact"
)

// turn changes the state of plants that had their verdict: a top that died
// later, or a bud that pushed after all.
func (n *Nursery) turn(f *fact.Turn) {
	l, ok := n.lot(f.Lot)
	if !ok || !n.turns(f, l) {
		return
	}
	n.cause(f.To)
	count := f.Count.N
	switch {
	case l.Beside && f.State == fact.Attached: // nothing holds it to the mother any more
		l.failLater(count, n.now.Day())
		n.change(f.How, l, fact.Attached, fact.Living, count, past{bare: count})
	case l.Beside && f.How == fact.FailedLate:
		n.rebare(f.How, l, count)
		l.failLater(count, n.now.Day())
	case l.Beside:
		n.rebare(f.How, l, -count)
		l.revive(count, past{})
	case f.How == fact.FailedLate:
		late := l.failLater(count, n.now.Day())
		n.change(f.How, l, orLiving(f.State), fact.Failed, count, past{late: late})
	default:
		l.revive(count, n.change(f.How, l, fact.Failed, l.good(), count, past{}))
	}
}

// turns refuses an entry that turns plants which can't be turned so.
func (n *Nursery) turns(f *fact.Turn, l *Lot) bool {
	kind, tried := l.kind()
	from, verb := orLiving(f.State), "failing"
	switch {
	case f.How == fact.Revived:
		from, verb = fact.Failed, "revived"
	case from == fact.Waiting || from == fact.Failed:
		n.refuse(f.Lot.Span, "wrong-kind", fmt.Sprintf("what is %s has not taken, so it can't fail later; say what a look shows: check %s: %d failed", from, spell(l.Name), f.Count.N), l.Name)
		return false
	case !tried || kind == SeedBatch || kind == LayerBatch && from == fact.Living:
		n.refuse(f.Lot.Span, "wrong-kind", fmt.Sprintf("%s has no grafted top that could fail or push; plants that died are lost: lose %d of %s to …", l.Name, f.Count.N, spell(l.Name)), l.Name)
		return false
	}
	if !l.Beside || from == fact.Attached {
		return n.has(l, from, f.Count, verb)
	}
	topped := l.On[fact.Living] - l.Bare
	if f.How == fact.Revived {
		topped = l.Bare
	}
	if f.Count.N > topped {
		n.refuse(f.Count.Span, "too-many", fmt.Sprintf("%d %s %s here, but of the %d living plants of %s, %d %s the new top beside the old one and %d %s not",
			f.Count.N, isOrAre(f.Count.N), verb, l.On[fact.Living], l.Name, l.On[fact.Living]-l.Bare, hasOrHave(l.On[fact.Living]-l.Bare), l.Bare, hasOrHave(l.Bare)), l.Name)
		return false
	}
	return true
}

// kind is what was tried on the plants of a lot; ok is false where nothing was.
func (l *Lot) kind() (kind BatchKind, ok bool) {
	switch {
	case l.Grafted():
		return GraftBatch, true
	case l.Batch != nil:
		return l.Batch.Kind, true
	case len(l.Batches) > 0:
		return l.Batches[0].Kind, true
	}
	return 0, false
}

// good is the state of what took, rooted or came up.
func (l *Lot) good() fact.State {
	if l.OnMother() {
		return fact.Attached
	}
	return fact.Living
}

// failLater books tops that died after they had taken. Up to the first-check
// day that is the verdict itself; later it stands beside it. It says how many
// had taken for good.
func (l *Lot) failLater(count int32, day fact.Date) (late int32) {
	b := l.Batch
	if b == nil {
		l.LateMixed += count
		return count
	}
	count = min(count, b.Took-b.Late) // plants found over at a stocktake have no attempt
	if day <= b.FirstCheck {
		b.Took -= count
		b.Failed += count
		return 0
	}
	b.Late += count
	return count
}

// revive books buds that pushed after all: the attempt took, and where it had
// been a late failure, it is none any more.
func (l *Lot) revive(count int32, was past) {
	b := l.Batch
	if b == nil {
		l.LateMixed = max(0, l.LateMixed-was.late)
		return
	}
	late := min(was.late, b.Late)
	early := min(count-was.late, b.Failed-b.Dead)
	if l.Beside { // nobody can tell the two apart
		late = min(count-early, b.Late)
	}
	b.Late -= late
	b.Failed -= early
	b.Took += early
	b.Upper = min(max(0, b.Upper-was.upper), b.Failed-b.Dead)
	b.Lower = min(b.Lower, b.Failed-b.Dead-b.Upper)
}
