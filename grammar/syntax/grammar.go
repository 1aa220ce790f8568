package syntax

import (
	"errors"
	"io"
	"strconv"
	"strings"
	"sync"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"

	"github.com/budstick/budstick/grammar/source"
)

// definition tells participle the kinds of token. Its Lex serves the library
// only; the program hands tokens over itself, see feed.
type definition struct{}

// Symbols numbers the kinds as participle wants them: negative, EOF at -1.
func (definition) Symbols() map[string]lexer.TokenType {
	m := map[string]lexer.TokenType{}
	for k, name := range names {
		m[name] = tokenType(Kind(k))
	}
	return m
}

func tokenType(k Kind) lexer.TokenType { return lexer.EOF - lexer.TokenType(k) }

func (definition) Lex(string, io.Reader) (lexer.Lexer, error) {
	return nil, errors.New("entries are handed over as tokens")
}

// A Grammar is the sentence of one verb: participle's parser for it, made when
// it is first needed, with the words it knows.
type Grammar struct {
	once  sync.Once
	build func(*Grammar)

	parse func(*lexer.PeekingLexer) (any, error)
	words map[string]uint8 // the literals of the sentence, numbered from 1
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
		g.words = map[string]uint8{}
		for i, w := range g.auto.literals() {
			g.words[w] = uint8(i + 1)
		}
	}}
}

func (g *Grammar) ready() *Grammar {
	g.once.Do(func() { g.build(g) })
	return g
}

// EBNF is the sentence as participle prints it, one production a line.
func (g *Grammar) EBNF() string { return g.ready().ebnf }

// Words are the words that the sentence knows, sorted.
func (g *Grammar) Words() []string { return g.ready().auto.literals() }

// Knows reports whether w, in small letters, is a word of the sentence.
func (g *Grammar) Knows(w string) bool { return g.ready().words[w] > 0 }

// A Mismatch says where a sentence stopped making sense: at the token of that
// index (the number of tokens: at the end), where one of Want could stand.
type Mismatch struct {
	At   int
	Want []Terminal
}

// A Parser fits entries to grammars. What a grammar makes of an entry depends
// only on the entry's shape: the kinds of its tokens and those of its words
// that the sentence knows. So each shape is parsed once, by participle, and its
// tree serves all entries of that shape; the tree names tokens by number.
//
// A Parser is for one goroutine.
type Parser struct {
	shapes map[*Grammar]map[string]any
	key    []byte
	feed   []lexer.Token
}

// NewParser makes a Parser that knows no shapes yet.
func NewParser() *Parser { return &Parser{shapes: map[*Grammar]map[string]any{}} }

// maxShapes bounds what is kept for one grammar; real journals have a few
// dozen shapes a verb.
const maxShapes = 4096

// Parse fits the tokens of an entry of file to g and returns a pointer to the
// struct that g was made from. The tree is shared and must not be changed.
func (p *Parser) Parse(g *Grammar, file *source.File, toks []Token) (any, *Mismatch) {
	g.ready()
	p.key = p.key[:0]
	for _, t := range toks {
		p.key = append(p.key, byte(t.Kind), g.word(file, t))
	}
	known := p.shapes[g]
	if tree, ok := known[string(p.key)]; ok {
		return tree, nil
	}
	tree, bad := p.participle(g, file, toks)
	if bad != nil {
		return nil, bad
	}
	if known == nil {
		known = map[string]any{}
		p.shapes[g] = known
	}
	if len(known) < maxShapes {
		known[string(p.key)] = tree
	}
	return tree, nil
}

// word is the number of t among the words of the sentence, or 0.
func (g *Grammar) word(file *source.File, t Token) uint8 {
	if t.Kind != Word && t.Kind != Reserved || t.Span.Len() > 24 {
		return 0
	}
	var low [24]byte
	return g.words[string(lower(low[:0], file.Bytes[t.Span.Start:t.Span.End]))]
}

// participle parses one shape.
func (p *Parser) participle(g *Grammar, file *source.File, toks []Token) (any, *Mismatch) {
	p.feed = p.feed[:0]
	for i, t := range toks {
		value := ""
		switch {
		case t.Kind == Comma:
			value = ","
		case t.Kind == Colon:
			value = ":"
		case g.word(file, t) > 0:
			value = strings.ToLower(file.Text(t.Span))
		}
		p.feed = append(p.feed, lexer.Token{Type: tokenType(t.Kind), Value: value, Pos: lexer.Position{Offset: i}})
	}
	p.feed = append(p.feed, lexer.EOFToken(lexer.Position{Offset: len(toks)}))
	list := &tokenList{toks: p.feed}
	peeking, err := lexer.Upgrade(list)
	if err == nil {
		var tree any
		if tree, err = g.parse(peeking); err == nil {
			return tree, nil
		}
	}
	at := len(toks)
	var unexpected *participle.UnexpectedTokenError
	if errors.As(err, &unexpected) {
		at = unexpected.Unexpected.Pos.Offset
	}
	at, want := g.auto.expected(p.feed[:len(toks)], at)
	return nil, &Mismatch{At: at, Want: want}
}

// tokenList hands tokens to participle.
type tokenList struct {
	toks []lexer.Token
	next int
}

func (l *tokenList) Next() (lexer.Token, error) {
	t := l.toks[min(l.next, len(l.toks)-1)]
	l.next++
	return t, nil
}

// Expected is what could stand behind the first tokens of an entry, for an
// editor that completes it; at is the index of the first token that does not
// fit, or the number of tokens.
func (p *Parser) Expected(g *Grammar, file *source.File, toks []Token) (at int, want []Terminal) {
	g.ready()
	if _, bad := p.participle(g, file, toks); bad != nil {
		return bad.At, bad.Want
	}
	return g.auto.expected(p.feed[:len(toks)], len(toks))
}

// A Terminal is something that a sentence can go on with: a word or sign of
// the language, or any token of a kind.
type Terminal struct {
	Literal string // empty for a kind
	Kind    Kind
	Not     bool // any token but this
}

func (t Terminal) String() string {
	if t.Literal != "" {
		return strconv.Quote(t.Literal)
	}
	return "<" + strings.ToLower(t.Kind.String()) + ">"
}
