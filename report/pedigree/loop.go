package pedigree

import (
	"fmt"
	"slices"
	"strings"
)

// A LoopError names varieties that would be their own ancestors: each comes
// from the next, and the last from the first. The first is the one that was
// declared first.
type LoopError struct{ Names []string }

// spelledOut is how many names of a long loop a message shows.
const spelledOut = 8

func (e *LoopError) Error() string {
	if len(e.Names) == 1 {
		return fmt.Sprintf("%q is stated as its own parent: mend the parent", e.Names[0])
	}
	var b strings.Builder
	fmt.Fprintf(&b, "%q comes from ", e.Names[0])
	for i, name := range e.Names[1:] {
		if i == spelledOut {
			fmt.Fprintf(&b, "%d more, of which the last comes from ", len(e.Names)-1-i)
			break
		}
		fmt.Fprintf(&b, "%q, that from ", name)
	}
	fmt.Fprintf(&b, "%q again: a variety can't be its own ancestor, so one of these parents is wrong", e.Names[0])
	return b.String()
}

func newLoopError(individuals []Individual, loop []int32) *LoopError {
	names := make([]string, len(loop))
	for i, at := range loop {
		names[i] = individuals[at].Name
	}
	return &LoopError{Names: names}
}

// loops finds a loop below every individual that is missing from order, no two
// with an individual in common. Each that is missing has a seedling or clone
// that is missing too, so going from each to one such must come round; going
// over each individual once makes the whole search linear.
func loops(up []cross, order []int32) [][]int32 {
	if len(order) == len(up) {
		return nil
	}
	missing := slices.Repeat([]bool{true}, len(up))
	for _, i := range order {
		missing[i] = false
	}
	below := make([]int32, len(up)) // one that is missing and comes from this one
	for i, from := range up {
		for _, parent := range from {
			if missing[i] && parent != unknown {
				below[parent] = int32(i)
			}
		}
	}
	var found [][]int32
	walkedBy := make([]int, len(up)) // the walk that came by, from 1
	for start := range up {
		if !missing[start] {
			continue
		}
		var path []int32
		at := int32(start)
		for ; walkedBy[at] == 0; at = below[at] {
			walkedBy[at] = start + 1
			path = append(path, at)
		}
		if walkedBy[at] == start+1 {
			found = append(found, upwards(path[slices.Index(path, at):]))
		}
	}
	return found
}

// upwards turns a loop of individuals that each lead to the next round, until
// each comes from the next, beginning with the lowest position.
func upwards(loop []int32) []int32 {
	slices.Reverse(loop)
	at := slices.Index(loop, slices.Min(loop))
	return slices.Concat(loop[at:], loop[:at])
}
