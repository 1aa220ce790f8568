// Package fact is what entries mean, free of how they are written: the closed
// set of effects that a journal can have on the nursery, with dates, counts
// and money. Kinds of entry may be added; effects are not, so a report written
// over effects need not know the kinds.
package fact

import "github.com/budstick/budstick/grammar/source"

// An Entry is one entry of a journal, read and understood by itself; whether
// it agrees with the others is for the replay to say.
type Entry struct {
	File *source.File
	Span source.Span // the whole entry, without the newline that ends it
	Line int32       // the line of its first character
	Date Date        // the day it stands under; 0 for what stands before the first day
	Verb string      // the word it begins with
	// Effect is what the entry does. It is never nil.
	Effect Effect
	// Extra holds the clauses that any entry takes, or nil where it has none.
	Extra *Extra
}

// Extra is the clauses that any entry takes.
type Extra struct {
	Happened Date // when it happened, where that is not the day it is written under
	At       Name
	Workers  []Labour
	Costs    []Money
	Notes    []Name
	Tags     []Name
}

// Day is the day by which ages, checks and seasons are reckoned: the day it
// happened, else the day it is written under.
func (e *Entry) Day() Date {
	if e.Extra != nil && e.Extra.Happened != 0 {
		return e.Extra.Happened
	}
	return e.Date
}

// At is the place named on the entry.
func (e *Entry) At() Name {
	if e.Extra == nil {
		return Name{}
	}
	return e.Extra.At
}

// Workers is who did it.
func (e *Entry) Workers() []Labour {
	if e.Extra == nil {
		return nil
	}
	return e.Extra.Workers
}

// Costs is the money the entry says it cost.
func (e *Entry) Costs() []Money {
	if e.Extra == nil {
		return nil
	}
	return e.Extra.Costs
}

// Tags is the words the grower files the entry under.
func (e *Entry) Tags() []Name {
	if e.Extra == nil {
		return nil
	}
	return e.Extra.Tags
}

// Effect is one of the effects of this package, always by pointer.
type Effect interface{ effect() }

// A State is what a plant on hand is doing.
type State uint8

// The states of plants on hand. Attached plants have roots or a top but still
// hang on the mother. AnyState is the zero value: none was written.
const (
	AnyState State = iota
	Waiting
	Attached
	Living
	Failed
	States // the number of states, for tables indexed by one
)

var states = [...]string{"", "waiting", "attached", "living", "failed"}

func (s State) String() string { return states[s] }

// ParseState reads a state word.
func ParseState(s string) State {
	for i, word := range states {
		if word == s && i > 0 {
			return State(i)
		}
	}
	return AnyState
}
