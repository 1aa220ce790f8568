// Package entry knows each kind of entry: how its sentence is written, what it
// means and how to explain it. One file holds one kind, or a few that share a
// sentence; All lists them.
//
// A kind is a struct whose tags are the grammar, and a function that turns the
// parsed sentence into one effect of package fact. The tags are the only place
// where the grammar is written: the EBNF in FORMAT.md, the messages and the
// completions all come from them.
package entry

import (
	"strings"
	"sync"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/syntax"
)

// A Kind is one kind of entry.
type Kind struct {
	Verb    string
	Summary string   // one line: what the entry says
	Text    string   // what it means, for FORMAT.md and the editor
	Pattern string   // a complete sentence to copy, shown in messages
	Samples []string // more sentences, which show every word of its own
	Grammar *syntax.Grammar

	lower    func(*reader, any) fact.Effect
	examples func() map[int]string // see findExamples
	leads    func() []string       // see findLeads
}

// kindOf makes a Kind from the struct S that holds its grammar.
func kindOf[S any](k Kind, lower func(*reader, *S) fact.Effect) *Kind {
	k.Verb, _, _ = strings.Cut(k.Pattern, " ")
	k.Grammar = syntax.Sentence[S]()
	k.lower = func(r *reader, tree any) fact.Effect { return lower(r, tree.(*S)) }
	k.examples = sync.OnceValue(k.findExamples)
	k.leads = sync.OnceValue(k.findLeads)
	return &k
}
