package nursery

import (
	"fmt"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
)

// tally is the outcomes of one check, added up.
type tally struct {
	good, failed, dead, unsure int32 // good: took, rooted or up
	upper, lower               int32 // of failed
	with                       int32 // scions alive, or plants from seed
	counted                    bool  // with was written
	about                      bool
}

func (t tally) known() int32 { return t.good + t.failed + t.dead }

func (n *Nursery) check(f *fact.Check) {
	t, ok := n.thing(f.Lot)
	if !ok {
		return
	}
	if tree, ok := t.(*Tree); ok {
		n.checkTree(f, tree)
		return
	}
	l, ok := n.lot(f.Lot)
	if !ok {
		return
	}
	l.Entries = l.Entries[:len(l.Entries)-1] // lot has filed it a second time
	if l.Batch == nil || l.Batch.Day == 0 {
		n.refuse(f.Lot.Span, "nothing-to-check", fmt.Sprintf("%s began by being %s, so nothing in it waits for a verdict; it holds %s", l.Name, l.How, l.states()), l.Name)
		return
	}
	if day := n.now.Day(); day < l.Batch.Day {
		n.refuse(f.Lot.Span, "check-before", fmt.Sprintf("%s was begun on %s, after this look; mend one of the days", l.Name, l.Batch.Day.Long()), l.Name)
		return
	}
	sum, ok := n.tally(f, l)
	if !ok || !n.fits(f, l, &sum) {
		return
	}
	if f.Sample {
		n.Samples = append(n.Samples, n.now)
		return
	}
	n.settle(l, sum)
	for _, o := range f.Outcomes {
		n.cause(o.Cause)
	}
}

// goodWord is the verdict that says an attempt of a kind succeeded.
var goodWord = map[BatchKind]fact.Verdict{
	GraftBatch: fact.Took, LayerBatch: fact.Rooted, CuttingBatch: fact.Rooted, SeedBatch: fact.Up,
}

// tally adds the outcomes up, if their words fit the lot.
func (n *Nursery) tally(f *fact.Check, l *Lot) (tally, bool) {
	var t tally
	good := goodWord[l.Batch.Kind]
	for _, o := range f.Outcomes {
		t.about = t.about || o.Count.About
		switch v := o.Verdict; {
		case !o.Count.Given:
			n.refuse(f.Lot.Span, "check-sum", fmt.Sprintf("%s is a lot; say how many %s: check %s: 3 %s", l.Name, v, spell(l.Name), v), l.Name)
			return t, false
		case v == fact.Took || v == fact.Rooted || v == fact.Up:
			if v != good {
				n.refuse(o.Count.Span, "wrong-verdict", fmt.Sprintf("%s is a lot of %ss: say %d %s, not %s", l.Name, l.Batch.Kind, o.Count.N, good, v), l.Name)
				return t, false
			}
			t.good += o.Count.N
			if o.With.Given {
				t.with, t.counted = t.with+o.With.N, true
			}
		case v == fact.Fails && l.Batch.Kind == SeedBatch:
			n.refuse(o.Count.Span, "wrong-verdict", "seed is up or dead; what has not come up yet simply goes on waiting", l.Name)
			return t, false
		case (v == fact.Upper || v == fact.Lower) && len(l.Inter) == 0:
			n.refuse(o.Count.Span, "wrong-verdict", fmt.Sprintf("%s was grafted without an interstock (over), so there is one union; say %d failed", l.Name, o.Count.N), l.Name)
			return t, false
		case v == fact.Upper:
			t.upper += o.Count.N
			t.failed += o.Count.N
		case v == fact.Lower:
			t.lower += o.Count.N
			t.failed += o.Count.N
		case v == fact.Fails:
			t.failed += o.Count.N
		case v == fact.Dead:
			t.dead += o.Count.N
		case v == fact.Unsure:
			t.unsure += o.Count.N
		}
	}
	return t, true
}

// fits makes sure that a check is about no more than there is. It may read the
// tally anew, where plants were written and seeds are meant.
func (n *Nursery) fits(f *fact.Check, l *Lot, t *tally) bool {
	waiting := l.On[fact.Waiting]
	seen := t.known() + t.unsure
	switch {
	case f.Looked.Given && seen != f.Looked.N:
		n.refuse(f.Looked.Span, "check-sum", fmt.Sprintf("%d were looked at, but the outcomes add up to %d; mend one of them", f.Looked.N, seen), l.Name)
		return false
	case f.Sample:
		if most := l.Entered; f.Looked.N > most {
			n.refuse(f.Looked.Span, "too-many", fmt.Sprintf("%d were looked at, but %s never held more than %d", f.Looked.N, l.Name, most), l.Name)
			return false
		}
		return true
	case l.Batch.Kind == SeedBatch && n.severalASeed(f, l, t):
		return !n.refused
	case seen > waiting:
		n.tooManyVerdicts(f, l, seen)
		return false
	}
	return n.scionsFit(f, l, *t)
}

// severalASeed deals with seed of which more plants came up than were sown. It
// reports whether it has dealt with the check.
func (n *Nursery) severalASeed(f *fact.Check, l *Lot, t *tally) bool {
	poly := l.Top.Variety != nil && l.Top.Variety.Embryony == fact.Polyembryonic
	waiting := l.On[fact.Waiting]
	switch {
	case t.counted && t.with < t.good:
		n.refuse(f.Lot.Span, "check-sum", fmt.Sprintf("%d seeds came up, so there are at least as many plants, not %d", t.good, t.with), l.Name)
		return true
	case t.counted && t.with > t.good && !poly && l.Top.Variety != nil && l.Top.Variety.Embryony == fact.Monoembryonic:
		n.refuse(f.Lot.Span, "several-a-seed", fmt.Sprintf("%s is declared monoembryonic: one seed gives one plant, so %d seeds can't give %d plants", l.Top.Variety.Name, t.good, t.with), l.Name)
		return true
	case t.known()+t.unsure <= waiting:
		return false
	case poly && !t.counted && t.dead+t.unsure <= waiting && waiting > 0:
		t.with, t.counted = t.good, true
		t.good = waiting - t.dead - t.unsure
		return true
	case l.Top.Variety != nil && l.Top.Variety.Embryony != fact.Polyembryonic && t.good > waiting:
		n.refuse(f.Lot.Span, "several-a-seed", fmt.Sprintf("%d came up, but only %d seeds of %s wait; if one seed gives several plants here, declare it: variety %s … seed polyembryonic",
			t.good, waiting, l.Name, spell(l.Top.Variety.Name)), l.Name)
		return true
	}
	return false
}

// tooManyVerdicts refuses a check of more plants than wait, and shows the other
// check of the day where there is one: two on one day add up.
func (n *Nursery) tooManyVerdicts(f *fact.Check, l *Lot, seen int32) {
	at := f.Outcomes[0].Count.Span
	at.End = f.Outcomes[len(f.Outcomes)-1].Count.Span.End
	message := fmt.Sprintf("%d got a verdict here, but only %d of %s wait for one", seen, l.On[fact.Waiting], l.Name)
	var earlier *fact.Entry
	if k := len(l.Batch.Checks); k > 0 {
		earlier = l.Batch.Checks[k-1]
		if earlier.Date == n.now.Date {
			message += "; two checks of one day add up, so strike the other if this one replaces it"
		} else {
			message += "; a check says only what is new since the last one"
		}
	}
	fnd := n.refuse(at, "too-many-verdicts", message, l.Name)
	if earlier != nil {
		fnd.Related = []finding.Related{{File: earlier.File, Span: earlier.Span, Message: "the check before"}}
	} else {
		fnd.Related = []finding.Related{{File: l.Made.File, Span: l.Made.Span, Message: "the lot began here"}}
	}
}

// scionsFit makes sure that living scions lie between the stocks that took and
// what was set on them.
func (n *Nursery) scionsFit(f *fact.Check, l *Lot, t tally) bool {
	if !t.counted || l.Batch.Kind != GraftBatch {
		return true
	}
	if t.with < t.good || t.with > t.good*l.Batch.ScionsEach {
		n.refuse(f.Lot.Span, "scions-sum", fmt.Sprintf("%d stocks that took carry %d to %d living scions (%d were set on each), not %d",
			t.good, t.good, t.good*l.Batch.ScionsEach, l.Batch.ScionsEach, t.with), l.Name)
		return false
	}
	return true
}

// settle moves plants by their verdicts and books the attempts.
func (n *Nursery) settle(l *Lot, t tally) {
	b := l.Batch
	b.Checks = append(b.Checks, n.now)
	b.Took += t.good
	b.Failed += t.failed + t.dead
	b.Dead += t.dead
	b.Upper += t.upper
	b.Lower += t.lower
	b.About = b.About || t.about
	if n.now.Day() < b.FirstCheck {
		b.Early += t.known()
	}
	if t.counted && b.Kind == GraftBatch {
		b.ScionsAlive += t.with
		b.ScionsKnown += t.known() * b.ScionsEach
	}
	l.About = l.About || t.about
	good := fact.Living
	if l.OnMother() {
		good = fact.Attached
	}
	n.change(fact.Checked, l, fact.Waiting, good, t.good)
	if l.Beside { // the old top lives on, without the new one
		n.change(fact.Checked, l, fact.Waiting, fact.Living, t.failed)
		l.Bare += t.failed
	} else {
		n.change(fact.Checked, l, fact.Waiting, fact.Failed, t.failed)
	}
	n.exit(fact.Checked, fact.Lost, l, fact.Waiting, t.dead)
	if b.Kind == SeedBatch {
		plants := t.good
		if t.counted {
			plants = t.with
		}
		b.Plants += plants
		n.enter(fact.Checked, nil, fact.AnyState, l, fact.Living, plants-t.good)
	}
}

// checkTree gives a tree that was planted while it waited its verdict. Its
// attempt has left the count of the lot.
func (n *Nursery) checkTree(f *fact.Check, t *Tree) {
	if !n.stands(t, f.Lot.Span) {
		return
	}
	if t.State != fact.Waiting || f.Sample {
		n.refuse(f.Lot.Span, "nothing-to-check", fmt.Sprintf("%s is a tree that waits for no verdict; what became of it is said by lose, mark or tend", t.Name), t.Name)
		return
	}
	if len(f.Outcomes) != 1 || f.Outcomes[0].Count.N > 1 {
		n.refuse(f.Lot.Span, "check-sum", fmt.Sprintf("%s is one tree and has one verdict: check %s: took", t.Name, spell(t.Name)), t.Name)
		return
	}
	switch f.Outcomes[0].Verdict {
	case fact.Took, fact.Rooted, fact.Up:
		t.State = fact.Living
	case fact.Fails, fact.Upper, fact.Lower:
		t.State = fact.Failed
	case fact.Dead:
		n.treeGoes(t, fact.Lost)
	}
}

// turn changes the state of plants that had their verdict: a top that died
// later, or a bud that pushed after all.
func (n *Nursery) turn(f *fact.Turn) {
	l, ok := n.lot(f.Lot)
	if !ok {
		return
	}
	from, to, verb := fact.Living, fact.Failed, "failing"
	if f.How == fact.Revived {
		from, to, verb = fact.Failed, fact.Living, "reviving"
	}
	if !l.Grafted() && (l.Batch == nil || l.Batch.Kind == SeedBatch) {
		n.refuse(f.Lot.Span, "wrong-kind", fmt.Sprintf("%s has no grafted top that could fail or push; plants that died are lost: lose %d of %s to …", l.Name, f.Count.N, spell(l.Name)), l.Name)
		return
	}
	if !n.has(l, from, f.Count, verb) {
		return
	}
	n.cause(f.To)
	n.change(f.How, l, from, to, f.Count.N)
	l.settleBare()
	l.rebook(f.How, f.Count.N, n.now.Day())
}

// rebook moves attempts after a late failure or a revival. A failure up to the
// first-check day is the verdict itself; a later one stays beside it.
func (l *Lot) rebook(how fact.How, count int32, day fact.Date) {
	b := l.Batch
	switch {
	case b == nil && how == fact.FailedLate:
		l.LateMixed += count
	case b == nil:
		l.LateMixed = max(0, l.LateMixed-count)
	case how == fact.FailedLate && day <= b.FirstCheck:
		count = min(count, b.Took-b.Late)
		b.Took -= count
		b.Failed += count
	case how == fact.FailedLate:
		b.Late += min(count, b.Took-b.Late)
	default:
		early := min(count, b.Failed-b.Dead-b.Upper-b.Lower)
		b.Failed -= early
		b.Took += early
		b.Late -= min(count-early, b.Late)
	}
}
