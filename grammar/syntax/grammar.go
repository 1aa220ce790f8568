package syntax

import (
	"sync"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"

	"github.com/budstick/budstick/grammar/source"
)

// A Grammar is the sentence of one verb: participle's parser for it, made when
// it is first needed, and the automaton that says what the parser can't.
type Grammar struct {
	once  sync.Once
	build func(*Grammar)

	parse func(*lexer.PeekingLexer) (any, error)
	ebnf  string
	auto  *automaton
}

// Sentence is the grammar that the struct tags of T write down.
func Sentence[T any]() *Grammar {
	return &Grammar{build: func(g *Grammar) {
		p := participle.MustBuild[T](participle.Lexer(definition{}), participle.UseLookahead(0))
		g.parse = func(l *lexer.PeekingLexer) (any, error) { return p.ParseFromLexer(l) }
		g.ebnf = p.String()
		g.auto = newAutomaton(g.ebnf)
	}}
}

func (g *Grammar) ready() *Grammar {
	g.once.Do(func() { g.build(g) })
	return g
}

// Words are the words and signs that the sentence knows, sorted.
func (g *Grammar) Words() []string { return g.ready().auto.literals() }

// Knows reports whether w, in any case, is a word of the sentence.
func (g *Grammar) Knows(w string) bool { return g.ready().auto.words.find([]byte(w)) > 0 }

// symbol is what the grammar sees of a token.
func (g *Grammar) symbol(b []byte, t Token) symbol {
	s := symbol{kind: t.Kind}
	if t.Kind == Word || t.Kind == Reserved {
		s.word = g.auto.words.find(b[t.Span.Start:t.Span.End])
	}
	return s
}

// A Slot is one place of a sentence; the Spot numbers it within its grammar.
type Slot struct {
	Spot int
	Terminal
}

// Path is the slots that tokens fill, as far as they fit.
func (g *Grammar) Path(file *source.File, toks []Token) []Slot {
	a := g.ready().auto
	path := make([]Slot, 0, len(toks))
	at := 0
	for _, t := range toks {
		next, ok := a.step(at, g.symbol(file.Bytes, t))
		if !ok {
			break
		}
		at = next
		path = append(path, Slot{at, a.spots[at].on})
	}
	return path
}
