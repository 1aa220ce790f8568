package lsp

import (
	"slices"
	"sync"
	"time"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/grammar/syntax"
)

// A lead is the word of a sentence that a name stands behind: with in
// "graft … with W7", or of a list in it.
type lead struct{ verb, word string }

// A slotClass is what the name in a slot is the name of.
type slotClass struct {
	of   class
	made bool // something new
}

// slotClasses are learned from the sentences with which each kind of entry
// explains itself: they show every word of its own, so a new kind needs nothing
// here.
var slotClasses = sync.OnceValue(func() map[lead]slotClass {
	m := map[lead]slotClass{}
	learn := func(at lead, one mention) {
		was, known := m[at]
		m[at] = slotClass{was.of | one.of, one.made && (was.made || !known)}
	}
	for _, k := range entry.All {
		for _, sentence := range k.Sentences() {
			file := source.New("", []byte(sentence))
			all := source.Span{End: int32(len(sentence))}
			e, _, ok := entry.NewReader(file).Entry(syntax.Chunk{Span: all, Line: 1}, latest)
			if !ok {
				continue
			}
			toks := syntax.Lex(file.Bytes, all, nil)
			path := k.Grammar.Path(file, toks)
			for _, one := range mentionsIn(&e) {
				i := slices.IndexFunc(toks, func(t syntax.Token) bool { return t.Span == one.span })
				if i < 0 || i >= len(path) {
					continue
				}
				word := leadOf(path[:i])
				learn(lead{k.Verb, word}, one)
				if commonLead(word) {
					learn(lead{"", word}, one)
				}
			}
		}
	}
	return m
})

// latest is a day after all others.
var latest, _ = fact.NewDate(9999, time.December, 31)

// commonLead reports whether a clause is one that any entry takes.
func commonLead(word string) bool { return word == "at" || word == "worker" || word == "tag" }

// leadOf is the word that what follows some tokens stands behind.
func leadOf(path []syntax.Slot) string {
	for _, slot := range slices.Backward(path) {
		switch {
		case slot.Not, slot.Literal == "", slot.Literal == ",", slot.Literal == ":", slot.Literal == "x":
		default:
			return slot.Literal
		}
	}
	return ""
}

// slotAt is what a name behind a lead is the name of.
func slotAt(verb, word string) slotClass {
	if c, ok := slotClasses()[lead{verb, word}]; ok {
		return c
	}
	return slotClasses()[lead{"", word}]
}
