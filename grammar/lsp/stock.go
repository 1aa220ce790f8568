package lsp

import (
	"fmt"
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
)

// tally is what stands in a lot, by state.
type tally [fact.States]int32

// total is the plants in every state.
func (t tally) total() int32 {
	n := int32(0)
	for _, on := range t {
		n += on
	}
	return n
}

func (t tally) String() string {
	var parts []string
	for s := fact.Waiting; s < fact.States; s++ {
		if t[s] > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", t[s], s))
		}
	}
	if len(parts) == 0 {
		return "nothing left"
	}
	return strings.Join(parts, ", ")
}

// A stock is what stands in lots and is left of bundles, counted on from the
// beginning of the journal, move by move.
type stock struct {
	*replay
	lots    map[*nursery.Lot]*tally
	used    map[*nursery.Bundle]int32
	moves   int // how many moves are counted
	uses    int // and uses of bundles
	touched []nursery.Thing
}

func (r *replay) newStock() *stock {
	return &stock{replay: r, lots: map[*nursery.Lot]*tally{}, used: map[*nursery.Bundle]int32{}}
}

// until counts up to a spot.
func (s *stock) until(at spot) *stock {
	s.while(func(e *fact.Entry) bool { return s.above(e, at) })
	return s
}

// while counts the moves and uses of entries as long as want says so, and
// notes what they touched.
func (s *stock) while(want func(*fact.Entry) bool) {
	for ; s.moves < len(s.Moves) && want(s.Moves[s.moves].Entry); s.moves++ {
		m := &s.Moves[s.moves]
		if m.From != nil {
			s.of(m.From)[m.FromState] -= m.N
			s.touch(m.From)
		}
		if m.To != nil {
			s.of(m.To)[m.ToState] += m.N
			s.touch(m.To)
		}
	}
	for ; s.uses < len(s.Uses) && want(s.Uses[s.uses].Entry); s.uses++ {
		u := &s.Uses[s.uses]
		s.used[u.From] += u.N
		s.touch(u.From)
	}
}

func (s *stock) touch(t nursery.Thing) { s.touched = append(s.touched, t) }

func (s *stock) of(l *nursery.Lot) *tally {
	t := s.lots[l]
	if t == nil {
		t = &tally{}
		s.lots[l] = t
	}
	return t
}

// left is what is left of a lot or bundle, in words.
func (s *stock) left(t nursery.Thing) string {
	switch t := t.(type) {
	case *nursery.Lot:
		return s.of(t).String()
	case *nursery.Bundle:
		return s.leftOf(t)
	}
	return ""
}

func (s *stock) leftOf(b *nursery.Bundle) string {
	if b.Count < 0 {
		return "number not known"
	}
	return fmt.Sprintf("%d %s left", b.Count-s.used[b], b.Noun)
}
