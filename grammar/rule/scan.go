package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
)

// A scan looks once at everything of which a journal has very many and asks
// the questions of many rules on the way: the time goes into fetching things
// from memory and not into asking.
type scan struct {
	nursery *nursery.Nursery
	lots    []func(*nursery.Lot)
	batches []func(*nursery.Batch)
	moves   [fact.Counted + 1][]func(*nursery.Move)
	entries []func(*fact.Entry)
	effects [effectKinds][]func(*fact.Entry)
	ends    []func()
	takings []func(taking) // of wood, see taken.go
	taints  map[string]*taint
	joined  []func(*nursery.Batch, *fact.Graft, *union)

	lastName  string // memory of thing: one entry is asked about many times
	lastThing nursery.Thing
	unions    map[unionKey]*union
	turns     []fact.Date // days on which the limits in force change
}

func newScan(n *nursery.Nursery, turns []fact.Date) *scan {
	return &scan{nursery: n, unions: map[unionKey]*union{}, taints: map[string]*taint{}, turns: turns}
}

// run asks all questions. Entries come last but for the ends, so that a rule
// may gather what it needs from lots and moves.
func (s *scan) run() {
	for _, l := range s.nursery.Lots {
		for _, ask := range s.lots {
			ask(l)
		}
	}
	for _, b := range s.nursery.Batches {
		for _, ask := range s.batches {
			ask(b)
		}
	}
	for i := range s.nursery.Moves {
		m := &s.nursery.Moves[i]
		for _, ask := range s.moves[m.How] {
			ask(m)
		}
	}
	for _, e := range s.nursery.Entries {
		if s.nursery.Refused[e] { // an error says what is wrong with it, and it counts for nothing
			continue
		}
		for _, ask := range s.entries {
			ask(e)
		}
		for _, ask := range s.effects[kindOf(e.Effect)] {
			ask(e)
		}
	}
	for _, end := range s.ends {
		end()
	}
}

// thing finds a thing by its name, or nil.
func (s *scan) thing(name string) nursery.Thing {
	if name == "" {
		return nil
	}
	if name != s.lastName {
		t, ok := s.nursery.Thing(name)
		if !ok {
			t = nil
		}
		s.lastName, s.lastThing = name, t
	}
	return s.lastThing
}

// effectKinds is the number of kinds of effect that rules ask about; the last
// is all others.
const effectKinds = 19

// kindOf numbers the effects that rules ask about.
func kindOf(e fact.Effect) int {
	switch e.(type) {
	case *fact.Begin:
		return 0
	case *fact.Layer:
		return 1
	case *fact.Cut:
		return 2
	case *fact.Graft:
		return 3
	case *fact.Check:
		return 4
	case *fact.Turn:
		return 5
	case *fact.Pass:
		return 6
	case *fact.Join:
		return 7
	case *fact.Leave:
		return 8
	case *fact.Plant:
		return 9
	case *fact.Return:
		return 10
	case *fact.Pick:
		return 11
	case *fact.Stocktake:
		return 12
	case *fact.Spend:
		return 13
	case *fact.Work:
		return 14
	case *fact.Tend:
		return 15
	case *fact.Mark:
		return 16
	case *fact.Allow:
		return 17
	}
	return effectKinds - 1
}
