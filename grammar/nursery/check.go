package nursery

import (
	"fmt"
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
)

// tally is the outcomes of one check, added up.
type tally struct {
	good, failed, dead, unsure int32 // good: took, rooted or up
	upper, lower               int32 // of failed
	with                       int32 // scions alive, or plants from seed
	counted                    bool  // with was written
	goods                      int   // outcomes that are good
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
	l, ok := n.asLot(t, f.Lot)
	if !ok {
		return
	}
	if l.Batch == nil {
		n.refuse(f.Lot.Span, "nothing-to-check", fmt.Sprintf("%s began by being %s, so nothing in it waits for a verdict; it holds %s", l.Name, l.How, l.states()), l.Name)
		return
	}
	for _, o := range f.Outcomes {
		if v := o.Verdict; !o.Count.Given {
			n.refuse(f.Lot.Span, "check-sum", fmt.Sprintf("%s is a lot; say how many %s: check %s: 3 %s", l.Name, v, spell(l.Name), v), l.Name)
			return
		}
	}
	sum, ok := n.tally(f, f.Outcomes, l.Batch.Kind, l.Name, len(l.Inter) > 0)
	if !ok || !n.fits(f, l, &sum) {
		return
	}
	if f.Sample {
		n.Samples = append(n.Samples, n.now)
		return
	}
	n.settle(l, sum)
	n.causesOf(f)
}

// causesOf begins the causes that a check gives for deaths.
func (n *Nursery) causesOf(f *fact.Check) {
	for _, o := range f.Outcomes {
		n.cause(o.Cause)
	}
}

// goodWord is the verdict that says an attempt of a kind succeeded.
var goodWord = [...]fact.Verdict{
	GraftBatch: fact.Took, LayerBatch: fact.Rooted, CuttingBatch: fact.Rooted, SeedBatch: fact.Up,
}

// tally adds the outcomes of a check up, if their words fit what is looked at:
// attempts of a kind, with an interstock or without.
func (n *Nursery) tally(f *fact.Check, outcomes []fact.Outcome, kind BatchKind, name string, inter bool) (tally, bool) {
	var t tally
	withs, total := 0, int64(0)
	for _, o := range outcomes {
		total += int64(o.Count.N) + int64(o.With.N)
		if !n.verdictFits(o, kind, name, inter) || !n.bounded(o.Count.Span, 0, total, "plants", name) {
			return t, false
		}
		t.about = t.about || o.Count.About
		switch o.Verdict {
		case fact.Took, fact.Rooted, fact.Up:
			t.good += o.Count.N
			t.goods++
		case fact.Upper:
			t.upper += o.Count.N
			t.failed += o.Count.N
		case fact.Lower:
			t.lower += o.Count.N
			t.failed += o.Count.N
		case fact.Fails:
			t.failed += o.Count.N
		case fact.Dead:
			t.dead += o.Count.N
		case fact.Unsure:
			t.unsure += o.Count.N
		}
		if o.With.Given {
			withs++
			t.with, t.counted = t.with+o.With.N, true
		}
	}
	if t.counted && withs < t.goods {
		n.refuse(f.Lot.Span, "check-sum", fmt.Sprintf("say with how many %s for all that %s, or for none", withNoun(kind), goodWord[kind]), name)
		return t, false
	}
	return t, true
}

// withNoun is what lives on an attempt that succeeded, or empty where nothing
// is counted on it.
func withNoun(kind BatchKind) string {
	switch kind {
	case GraftBatch:
		return fact.Scions.String()
	case SeedBatch:
		return fact.Plants.String()
	}
	return ""
}

// verdictFits refuses an outcome whose words are not those of its kind.
func (n *Nursery) verdictFits(o fact.Outcome, kind BatchKind, name string, inter bool) bool {
	say := ""
	switch v, good := o.Verdict, goodWord[kind]; {
	case (v == fact.Took || v == fact.Rooted || v == fact.Up) && v != good:
		say = fmt.Sprintf("%s is a lot of %ss: say %d %s, not %s", name, kind, o.Count.N, good, v)
	case v == fact.Fails && kind == SeedBatch:
		say = "seed is up or dead; what has not come up yet simply goes on waiting"
	case (v == fact.Upper || v == fact.Lower) && !inter:
		say = fmt.Sprintf("%s was made without an interstock (over), so there is one union; say %d failed", name, o.Count.N)
	case o.With.Given && v != good:
		say = fmt.Sprintf("with says what lives on those that %s; leave it out behind %s", good, v)
	case o.With.Given && withNoun(kind) == "":
		say = fmt.Sprintf("%s is a lot of %ss, each of which is one plant; leave out with %d %s", name, kind, o.With.N, o.Noun)
	case o.With.Given && o.Noun.String() != withNoun(kind):
		say = fmt.Sprintf("%s is a lot of %ss: say with %d %s, not %s", name, kind, o.With.N, withNoun(kind), o.Noun)
	default:
		return true
	}
	n.refuse(o.Count.Span, "wrong-verdict", say, name)
	return false
}

// fits makes sure that a check is about no more than there is. It may read the
// tally anew, where plants were written and seeds are meant.
func (n *Nursery) fits(f *fact.Check, l *Lot, t *tally) bool {
	seen := t.known() + t.unsure
	switch {
	case f.Looked.Given && seen != f.Looked.N:
		n.refuse(f.Looked.Span, "check-sum", fmt.Sprintf("%d %s looked at, but the outcomes add up to %d; mend one of them", f.Looked.N, wasOrWere(f.Looked.N), seen), l.Name)
	case f.Sample && f.Looked.N > l.Entered:
		n.refuse(f.Looked.Span, "too-many", fmt.Sprintf("%d %s looked at, but %s never held more than %d", f.Looked.N, wasOrWere(f.Looked.N), l.Name, l.Entered), l.Name)
	case t.counted && l.Batch.Kind == GraftBatch && !n.scionsFit(f, l, *t):
	case l.Batch.Kind == SeedBatch && !n.seedlingsFit(f, l, t):
	case !f.Sample && t.known()+t.unsure > l.On[fact.Waiting]:
		n.tooManyVerdicts(f, l, seen)
	default:
		return true
	}
	return false
}

// seedlingsFit makes sure that seeds could give the plants that came up. Where
// more plants of a polyembryonic variety came up than seeds wait, plants were
// written and seeds are reckoned: those that gave nothing were counted, so all
// others came up.
func (n *Nursery) seedlingsFit(f *fact.Check, l *Lot, t *tally) bool {
	var kind fact.Embryony
	if l.Top.Variety != nil {
		kind = l.Top.Variety.Embryony
	}
	waiting := l.On[fact.Waiting]
	switch {
	case t.counted && t.with < t.good:
		n.refuse(f.Lot.Span, "check-sum", fmt.Sprintf("%s came up, so there are at least as many plants, not %d", seeds(t.good), t.with), l.Name)
	case t.counted && t.with > t.good && t.good == 0:
		n.refuse(f.Lot.Span, "check-sum", fmt.Sprintf("%s came from no seed; say how many seeds came up", finding.Counted(t.with, "plant", "plants")), l.Name)
	case t.counted && t.with > t.good && kind == fact.Monoembryonic:
		n.refuse(f.Lot.Span, "several-a-seed", fmt.Sprintf("%s is declared monoembryonic: one seed gives one plant, so %s can't give %d plants", l.Top.Variety.Name, seeds(t.good), t.with), l.Name)
	case f.Sample || t.known()+t.unsure <= waiting || t.counted || t.good == 0:
		return !t.counted || f.Sample || n.bounded(f.Lot.Span, l.Entered, int64(t.with-t.good), "plants", l.Name)
	case kind == fact.Polyembryonic && t.dead+t.unsure < waiting:
		t.with, t.counted = t.good, true
		t.good = waiting - t.dead - t.unsure
		return n.bounded(f.Lot.Span, l.Entered, int64(t.with-t.good), "plants", l.Name)
	case kind != fact.Polyembryonic && t.good > waiting && waiting > 0:
		n.refuse(f.Lot.Span, "several-a-seed", fmt.Sprintf("%d came up, but only %s of %s %s; if one seed gives several plants here, declare it: variety %s … seed polyembryonic",
			t.good, seeds(waiting), l.Name, finding.Either(waiting, "waits", "wait"), spell(l.Top.Variety.Name)), l.Name)
	default:
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
	if earlier = l.checked; earlier != nil {
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
	upTo := int64(t.good) * int64(l.Batch.ScionsEach)
	if t.with >= t.good && int64(t.with) <= upTo {
		return true
	}
	n.refuse(f.Lot.Span, "scions-sum", fmt.Sprintf("%s that took %s %d to %d living scions (%d were set on each), not %d",
		finding.Counted(t.good, "stock", "stocks"), finding.Either(t.good, "carries", "carry"), t.good, upTo, l.Batch.ScionsEach, t.with), l.Name)
	return false
}

// settle moves plants by their verdicts and books the attempts.
func (n *Nursery) settle(l *Lot, t tally) {
	b := l.Batch
	b.Checks = append(b.Checks, n.now)
	l.checked = n.now
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
	n.change(fact.Checked, l, fact.Waiting, l.good(), t.good, past{})
	if l.Beside { // the old top lives on, without the new one
		n.change(fact.Checked, l, fact.Waiting, fact.Living, t.failed, past{bare: t.failed})
	} else {
		n.change(fact.Checked, l, fact.Waiting, fact.Failed, t.failed, past{upper: t.upper})
	}
	n.exit(fact.Checked, fact.Lost, l, fact.Waiting, t.dead)
	if b.Kind == SeedBatch {
		plants := t.good
		if t.counted {
			plants = t.with
		}
		b.Plants += plants
		n.enter(fact.Checked, l, fact.Living, plants-t.good)
	}
}

// checkTree gives a tree that was planted while it waited its verdict. Its
// attempt has left the count of the lot.
func (n *Nursery) checkTree(f *fact.Check, t *Tree) {
	if !n.standsNow(t, f.Lot.Span) || !n.agree(t.Name, t.Place) {
		return
	}
	if t.State != fact.Waiting || f.Sample {
		n.refuse(f.Lot.Span, "nothing-to-check", fmt.Sprintf("%s is a tree that waits for no verdict; what became of it is said by lose, mark or tend", t.Name), t.Name)
		return
	}
	inter := false
	if lot, ok := t.From.Thing.(*Lot); ok {
		inter = len(lot.Inter) > 0
	}
	outcomes := slices.Clone(f.Outcomes)
	for i := range outcomes {
		if c := &outcomes[i].Count; !c.Given { // one tree needs no number
			*c = fact.Count{N: 1, Given: true, Span: f.Lot.Span}
		}
	}
	sum, ok := n.tally(f, outcomes, t.Batch.Kind, t.Name, inter)
	if !ok {
		return
	}
	if seen := sum.known() + sum.unsure; seen != 1 || f.Looked.Given && f.Looked.N != 1 {
		n.refuse(f.Lot.Span, "check-sum", fmt.Sprintf("%s is one tree and has one verdict: check %s: %s", t.Name, spell(t.Name), goodWord[t.Batch.Kind]), t.Name)
		return
	}
	switch {
	case sum.good == 1:
		t.State = fact.Living
	case sum.failed == 1:
		n.topDies(t, sum.upper == 1)
	case sum.dead == 1:
		n.treeGoes(t, fact.Lost)
	}
	n.causesOf(f)
}

// topDies leaves a tree that was planted unchecked with what stood below the
// top that did not take.
func (n *Nursery) topDies(t *Tree, interLives bool) {
	t.State = fact.Failed
	lot, ok := t.From.Thing.(*Lot)
	if !ok {
		return
	}
	if len(lot.Inter) > 0 && !interLives {
		t.On = t.On[1:]
	}
	if t.Beside {
		t.State = fact.Living
		t.loseTop()
	}
}
