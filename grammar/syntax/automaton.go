package syntax

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/alecthomas/participle/v2/ebnf"
)

// An automaton accepts the sentences of one verb. It is made from the EBNF
// that participle prints, so it can't drift from the parser, and it answers
// what the parser does not: what could have stood at a place, what would mend a
// sentence, and whether the grammar ever leaves a choice open.
//
// It has one spot for each word or kind of token in each place of the sentence,
// and each spot knows the spots that can follow it (Glushkov 1961, Russian
// Mathematical Surveys 16:1). Spot 0 stands before the sentence. Sentences of
// this language never nest without bound, so productions are copied in where
// they are used.
type automaton struct {
	spots []spot
	words *wordTable
}

type spot struct {
	on   Terminal
	word uint8 // the number of on's word; 0 where on is a kind
	next []int // the spots that can follow, in the order of the grammar
	end  bool  // the sentence may end here
}

// A Terminal is something that a sentence can go on with: a word or sign of
// the language, or any token of a kind.
type Terminal struct {
	Literal string // empty for a kind
	Kind    Kind   // of a literal too
	Not     bool   // anything but this
}

func (t Terminal) String() string {
	s := "<" + strings.ToLower(t.Kind.String()) + ">"
	if t.Literal != "" {
		s = strconv.Quote(t.Literal)
	}
	if t.Not {
		return "~" + s
	}
	return s
}

// A symbol is what a grammar sees of a token: its kind, and its number if it
// is one of the words of the sentence.
type symbol struct {
	kind Kind
	word uint8
}

// accepts reports whether a token fits the spot.
func (s *spot) accepts(t symbol) bool {
	if s.word > 0 {
		return (s.word == t.word) != s.on.Not
	}
	return s.on.Kind == t.kind
}

// literal is the terminal of a word or sign of the language.
func literal(text string) Terminal {
	switch {
	case text == ",":
		return Terminal{Literal: text, Kind: Comma}
	case text == ":":
		return Terminal{Literal: text, Kind: Colon}
	case isReserved([]byte(text)):
		return Terminal{Literal: text, Kind: Reserved}
	}
	return Terminal{Literal: text, Kind: Word}
}

// kindNamed finds a kind by its name in the EBNF, which is in small letters.
func kindNamed(s string) Kind {
	i := slices.IndexFunc(names[:], func(n string) bool { return strings.EqualFold(n, s) })
	return Kind(max(i, 0))
}

// A fragment is a part of a sentence under construction: the spots it can
// begin and end with, and whether it may be left out.
type fragment struct {
	first, last []int
	empty       bool
}

type automatonBuilder struct {
	spots []spot
	rules map[string]*ebnf.Expression
	depth int
}

// maxDepth is more than productions are ever nested.
const maxDepth = 50

func newAutomaton(text string) *automaton {
	g, err := ebnf.ParseString(text)
	if err != nil {
		panic(fmt.Sprintf("participle prints a grammar that it can't read: %v\n%s", err, text))
	}
	b := automatonBuilder{spots: make([]spot, 1), rules: map[string]*ebnf.Expression{}}
	for _, p := range g.Productions {
		b.rules[p.Production] = p.Expression
	}
	whole := b.expression(g.Productions[0].Expression)
	b.spots[0].next = whole.first
	b.spots[0].end = whole.empty
	for _, i := range whole.last {
		b.spots[i].end = true
	}
	for i := range b.spots {
		slices.Sort(b.spots[i].next)
		b.spots[i].next = slices.Compact(b.spots[i].next)
	}
	return number(b.spots)
}

// number gives the words of the sentence their numbers.
func number(spots []spot) *automaton {
	var words []string
	for _, s := range spots {
		if s.on.Kind == Word || s.on.Kind == Reserved {
			words = append(words, s.on.Literal)
		}
	}
	slices.Sort(words)
	words = slices.DeleteFunc(slices.Compact(words), func(w string) bool { return w == "" })
	a := &automaton{spots, newWordTable(words)}
	for i := range spots {
		spots[i].word = a.words.find([]byte(spots[i].on.Literal))
	}
	return a
}

func (b *automatonBuilder) expression(e *ebnf.Expression) fragment {
	var out fragment
	for _, seq := range e.Alternatives {
		f := b.sequence(seq)
		out.first = append(out.first, f.first...)
		out.last = append(out.last, f.last...)
		out.empty = out.empty || f.empty
	}
	return out
}

func (b *automatonBuilder) sequence(s *ebnf.Sequence) fragment {
	out := fragment{empty: true}
	for _, t := range s.Terms {
		f := b.term(t)
		b.follow(out.last, f.first)
		if out.empty {
			out.first = append(out.first, f.first...)
		}
		if !f.empty {
			out.last = nil
		}
		out.last = append(out.last, f.last...)
		out.empty = out.empty && f.empty
	}
	return out
}

func (b *automatonBuilder) follow(last, first []int) {
	for _, i := range last {
		b.spots[i].next = append(b.spots[i].next, first...)
	}
}

func (b *automatonBuilder) term(t *ebnf.Term) fragment {
	f := b.atom(t)
	switch t.Repetition {
	case "?":
		f.empty = true
	case "*":
		f.empty = true
		b.follow(f.last, f.first)
	case "+":
		b.follow(f.last, f.first)
	}
	return f
}

func (b *automatonBuilder) atom(t *ebnf.Term) fragment {
	var on Terminal
	switch {
	case t.Group != nil:
		return b.expression(t.Group.Expr)
	case t.Name != "":
		if b.depth++; b.depth > maxDepth {
			panic("the production " + t.Name + " contains itself")
		}
		defer func() { b.depth-- }()
		return b.expression(b.rules[t.Name])
	case t.Literal != "":
		on = literal(strings.Trim(t.Literal, `"`))
	default:
		on = Terminal{Kind: kindNamed(t.Token)}
	}
	on.Not = t.Negation
	at := len(b.spots)
	b.spots = append(b.spots, spot{on: on})
	return fragment{first: []int{at}, last: []int{at}}
}

// step is the spot that reads t behind the spot from.
func (a *automaton) step(from int, t symbol) (int, bool) {
	for _, i := range a.spots[from].next {
		if a.spots[i].accepts(t) {
			return i, true
		}
	}
	return from, false
}

// run reads symbols behind a spot as far as they fit: how many, and the spot
// that read the last.
func (a *automaton) run(from int, list []symbol) (n, at int) {
	for n < len(list) {
		next, ok := a.step(from, list[n])
		if !ok {
			break
		}
		from = next
		n++
	}
	return n, from
}

// fits reports whether symbols make a whole sentence behind a spot.
func (a *automaton) fits(from int, list []symbol) bool {
	n, at := a.run(from, list)
	return n == len(list) && a.spots[at].end
}

// expected is what can stand behind a spot: words and signs by the alphabet,
// then kinds, and the end last.
func (a *automaton) expected(at int) []Terminal {
	var want []Terminal
	for _, i := range a.spots[at].next {
		want = append(want, a.spots[i].on)
	}
	slices.SortFunc(want, func(x, y Terminal) int {
		return cmp.Or(cmp.Compare(rank(x), rank(y)), cmp.Compare(x.Literal, y.Literal), cmp.Compare(x.Kind, y.Kind))
	})
	if a.spots[at].end {
		want = append(want, Terminal{Kind: EOF})
	}
	return slices.Compact(want)
}

// rank puts words before kinds, and anything at all last.
func rank(t Terminal) int {
	switch {
	case t.Not:
		return 2
	case t.Literal == "":
		return 1
	}
	return 0
}

// literals are the words and signs of the sentence, sorted.
func (a *automaton) literals() []string {
	var out []string
	for _, s := range a.spots {
		if s.on.Literal != "" {
			out = append(out, s.on.Literal)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}
