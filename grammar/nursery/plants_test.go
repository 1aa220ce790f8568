package nursery

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/budstick/budstick/grammar/fact"
)

// The book below is the nursery once more, as naive as can be: every plant is a
// thing of its own that is in one place, and nothing is counted until someone
// asks. It shares no code with the replay.
type plainBook struct {
	lots  []*plainLot
	trees []*plainTree
	wood  []*plainWood
	day   int
}

// A plainPlant is one plant, layer, cutting, seed or limb.
type plainPlant struct {
	state string // waiting attached living failed, or how it left
	try   *plainTry
	late  bool // failed: had taken before
	upper bool // failed: its interstock lives
	bare  bool // living: without the top that was set beside the old one
	found bool // at a stocktake

	last   int // the ordinal of its last graft
	failed int // how often it has been grafted without success
	before int // failed, before its top died
}

// A plainTry is one attempt; out is empty while it waits.
type plainTry struct {
	out  string
	late bool
}

// A plainTrial is the attempts of one entry.
type plainTrial struct {
	lot     string
	kind    string
	tries   []*plainTry
	first   int // the first-check day
	each    int // scions on each stock
	dulled  bool
	ordinal int // the highest ordinal among its plants
	unequal bool
}

type plainLot struct {
	name     string
	stack    []string // what it is, from the top down
	kind     string   // what was tried: graft layer cutting seed, or nothing
	plants   []*plainPlant
	trial    *plainTrial
	mother   *plainTree
	limbs    bool
	beside   bool
	inter    bool
	day      int
	mixed    int
	dull     bool // nobody knows mixed
	returned int
}

type plainTree struct {
	name    string
	top     string
	below   string // what the top stands on
	state   string
	gone    bool
	inter   bool
	beside  bool
	kind    string
	hanging []*plainLot
	tops    []*plainLot
}

type plainWood struct {
	name       string
	top        string
	seed       bool
	count      int // -1: nobody knows
	used, sold int
	lost       int
}

func (w *plainWood) left() int { return w.count - w.used - w.sold - w.lost }

// standing is the plants of a lot in a state; those of which nothing more is
// known come first.
func (l *plainLot) standing(state string) []*plainPlant {
	var list []*plainPlant
	for _, p := range l.plants {
		if p.state == state {
			list = append(list, p)
		}
	}
	more := func(p *plainPlant) int {
		switch {
		case p.late:
			return 2
		case p.upper, p.bare:
			return 1
		}
		return 0
	}
	slices.SortStableFunc(list, func(a, b *plainPlant) int { return cmp.Compare(more(a), more(b)) })
	return list
}

// has counts the plants of a lot that are, or left, in some ways.
func (l *plainLot) has(states ...string) int {
	n := 0
	for _, p := range l.plants {
		if slices.Contains(states, p.state) {
			n++
		}
	}
	return n
}

// unknown is a top that nobody knows.
const unknown = "?"

func (l *plainLot) top() string   { return l.stack[0] }
func (l *plainLot) grafted() bool { return len(l.stack) > 1 }

// bare is what stands below the top. Of interstocks that may live or not it is
// not known.
func (l *plainLot) bare() []string {
	switch {
	case l.inter:
		return []string{unknown}
	case len(l.stack) == 1:
		return l.stack
	}
	return l.stack[1:]
}

var onHand = []string{"waiting", "attached", "living", "failed"}

// free is the plants that stand free in some states.
func (l *plainLot) free(states ...string) int {
	n := 0
	for _, s := range states {
		switch {
		case l.limbs, s == "attached", s == "waiting" && (l.mother != nil || l.kind == "seed"), s == "failed" && l.mother != nil && l.kind == "layer":
		default:
			n += l.has(s)
		}
	}
	return n
}

// found counts the plants that a stocktake found over.
func (l *plainLot) foundOver() int {
	n := 0
	for _, p := range l.plants {
		if p.found {
			n++
		}
	}
	return n
}

// leave takes plants out of a lot. Unchecked ones leave their attempt without
// an outcome.
func (l *plainLot) leave(state, how string, n int) []*plainPlant {
	out := l.standing(state)[:n]
	for _, p := range out {
		if state == "waiting" && p.try != nil {
			p.try.out = "left"
		}
		p.state = how
	}
	return out
}

// pass moves plants to another lot in a state; a ghost stays behind.
func (l *plainLot) pass(state string, n int, to *plainLot, as, ghost string) []*plainPlant {
	out := l.standing(state)[:n]
	for _, p := range out {
		i := slices.Index(l.plants, p)
		l.plants[i] = &plainPlant{state: ghost, found: p.found, last: p.last, failed: p.failed}
		p.found = false
		p.state = as
		to.plants = append(to.plants, p)
	}
	return out
}

// derive is a lot with the same past as another, without plants.
func (b *plainBook) derive(name string, from *plainLot, hang bool) *plainLot {
	l := *from
	l.name, l.plants, l.mixed, l.returned = name, nil, 0, 0
	if !hang {
		l.mother = nil
	} else if l.limbs {
		l.mother.tops = append(l.mother.tops, &l)
	} else {
		l.mother.hanging = append(l.mother.hanging, &l)
	}
	b.lots = append(b.lots, &l)
	return &l
}

// begin is a new lot of n plants in a state, each an attempt of one trial if
// kind says so.
func (b *plainBook) begin(l *plainLot, n int, state string, firstAfter int) *plainLot {
	l.day = b.day
	if l.kind != "" {
		l.trial = &plainTrial{lot: l.name, kind: l.kind, first: b.day + firstAfter, each: 1}
	}
	for range n {
		p := &plainPlant{state: state}
		if l.trial != nil {
			p.try = &plainTry{}
			l.trial.tries = append(l.trial.tries, p.try)
		}
		l.plants = append(l.plants, p)
	}
	b.lots = append(b.lots, l)
	return l
}

// fails turns the tops of some living or attached plants.
func (b *plainBook) fails(l *plainLot, state string, n, day int) {
	for _, p := range l.standing(state)[:n] {
		late := true
		switch {
		case l.trial == nil:
			l.mixed++
		case p.try == nil: // found over: no attempt of its own
			late = false
		case day <= l.trial.first:
			p.try.out, late = "failed", false
		default:
			p.try.late = true
		}
		if l.beside {
			p.state, p.bare = "living", true
			continue
		}
		p.state, p.late, p.failed, p.before = "failed", late, max(p.failed, p.last), p.failed
	}
}

// revives turns some failed plants back.
func (b *plainBook) revives(l *plainLot, n int) {
	if l.beside {
		bare := slices.DeleteFunc(l.standing("living"), func(p *plainPlant) bool { return !p.bare })
		for _, p := range bare[:n] {
			p.bare = false
			if p.try != nil {
				p.try.out, p.try.late = "took", false
			}
		}
		if l.trial != nil {
			l.trial.dulled = true // which of the bare had never taken, nobody knows
		}
		return
	}
	for _, p := range l.standing("failed")[:n] {
		switch {
		case p.try != nil:
			p.try.out, p.try.late = "took", false
		case p.late:
			l.mixed = max(0, l.mixed-1)
		}
		p.state, p.late, p.upper, p.failed = "living", false, false, p.before
		if l.mother != nil && !l.limbs {
			p.state = "attached"
		}
	}
}

// goes takes a tree away, with what hangs on it.
func (b *plainBook) goes(t *plainTree) {
	t.gone = true
	for _, l := range t.hanging {
		for _, s := range onHand {
			if s == "waiting" || s == "attached" || s == "failed" && l.kind == "layer" {
				l.leave(s, "lost", l.has(s))
			}
		}
	}
	for _, l := range t.tops {
		for _, s := range onHand {
			l.leave(s, "lost", l.has(s))
		}
	}
}

// same says where the naive book and the nursery differ about a lot.
func (l *plainLot) same(n *Nursery) error {
	thing, _ := n.Thing(l.name)
	got, ok := thing.(*Lot)
	if !ok {
		return fmt.Errorf("there is no lot %s", l.name)
	}
	mixed := l.mixed
	if l.dull {
		mixed = int(got.LateMixed)
	}
	want := fmt.Sprintf("entered %d, waiting %d, attached %d, living %d, failed %d, sold %d, given %d, lost %d, culled %d, planted %d, used %d, gone %d, unexplained %d, returned %d, mixed %d",
		len(l.plants)-l.foundOver(), l.has("waiting"), l.has("attached"), l.has("living"), l.has("failed"), l.has("sold"), l.has("given"), l.has("lost"), l.has("culled"),
		l.has("planted"), l.has("used"), l.has("gone"), l.has("missing")-l.foundOver(), l.returned, mixed)
	have := fmt.Sprintf("entered %d, waiting %d, attached %d, living %d, failed %d, sold %d, given %d, lost %d, culled %d, planted %d, used %d, gone %d, unexplained %d, returned %d, mixed %d",
		got.Entered, got.On[1], got.On[2], got.On[3], got.On[4], got.Out[fact.Sold], got.Out[fact.Given], got.Out[fact.Lost], got.Out[fact.Culled],
		got.Out[fact.PlantedOut], got.Out[fact.Worked], got.Gone, got.Unexplained, got.Returned, got.LateMixed)
	if want != have {
		return fmt.Errorf("lot %s\nwant %s\nhave %s", l.name, want, have)
	}
	return l.trial.same(got.Batch, l.name)
}

// same compares the attempts of a trial.
func (x *plainTrial) same(b *Batch, lot string) error {
	if x == nil || b == nil {
		if (x == nil) != (b == nil) {
			return fmt.Errorf("lot %s: attempts %v and %v", lot, x, b)
		}
		return nil
	}
	if x.dulled {
		return nil
	}
	count := map[string]int{}
	late := 0
	for _, t := range x.tries {
		count[t.out]++
		if t.late {
			late++
		}
	}
	want := fmt.Sprintf("made %d, waiting %d, took %d, failed %d, dead %d, left %d, late %d",
		len(x.tries), count[""], count["took"], count["failed"]+count["dead"], count["dead"], count["left"], late)
	have := fmt.Sprintf("made %d, waiting %d, took %d, failed %d, dead %d, left %d, late %d", b.Made, b.Waiting(), b.Took, b.Failed, b.Dead, b.Left, b.Late)
	if want != have {
		return fmt.Errorf("attempts %s\nwant %s\nhave %s", x.lot, want, have)
	}
	if x.kind != "graft" {
		return nil
	}
	if b.Ordinal < x.ordinal || !b.AtLeast && (x.unequal || b.Ordinal != x.ordinal) {
		return fmt.Errorf("attempts %s: ordinal %d (at least: %v), but a plant is worked for the %d. time (unequal: %v)", x.lot, b.Ordinal, b.AtLeast, x.ordinal, x.unequal)
	}
	return nil
}
