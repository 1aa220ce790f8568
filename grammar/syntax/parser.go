package syntax

import (
	"errors"
	"io"
	"strings"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"

	"github.com/budstick/budstick/grammar/source"
)

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
	shapes map[*Grammar]*shape
	kept   int
	list   []symbol
	other  []symbol // for what Repair tries
	feed   []lexer.Token
}

// A shape is a step into a tree of the shapes seen so far, one step a token.
type shape struct {
	on   symbol
	next []*shape
	tree any // what participle made of the entries that end here; nil where none did
}

// maxShapes bounds the steps that are kept; real journals have some dozens of
// shapes a verb, of a dozen steps each.
const maxShapes = 1 << 17

// NewParser makes a Parser that knows no shapes yet.
func NewParser() *Parser { return &Parser{shapes: map[*Grammar]*shape{}} }

// Parse fits the tokens of an entry of file to g and returns a pointer to the
// struct that g was made from. The tree is shared and must not be changed.
func (p *Parser) Parse(g *Grammar, file *source.File, toks []Token) (any, *Mismatch) {
	p.see(g, file, toks)
	s := p.shapes[g]
	for i := 0; s != nil && i < len(p.list); i++ {
		s = s.step(p.list[i])
	}
	if s != nil && s.tree != nil {
		return s.tree, nil
	}
	if n, at := g.auto.run(0, p.list); n < len(p.list) || !g.auto.spots[at].end {
		return nil, &Mismatch{At: n, Want: g.auto.expected(at)}
	}
	tree, bad := p.participle(g, file, toks)
	if bad == nil {
		p.keep(g, tree)
	}
	return tree, bad
}

// see notes what g sees of the tokens.
func (p *Parser) see(g *Grammar, file *source.File, toks []Token) {
	g.ready()
	p.list = p.list[:0]
	for _, t := range toks {
		p.list = append(p.list, g.symbol(file.Bytes, t))
	}
}

func (s *shape) step(on symbol) *shape {
	for _, n := range s.next {
		if n.on == on {
			return n
		}
	}
	return nil
}

// keep remembers the tree of the shape at hand.
func (p *Parser) keep(g *Grammar, tree any) {
	if p.kept += len(p.list); p.kept > maxShapes {
		return
	}
	s := p.shapes[g]
	if s == nil {
		s = &shape{}
		p.shapes[g] = s
	}
	for _, on := range p.list {
		next := s.step(on)
		if next == nil {
			next = &shape{on: on}
			s.next = append(s.next, next)
		}
		s = next
	}
	s.tree = tree
}

// participle parses one shape, which fits the grammar.
func (p *Parser) participle(g *Grammar, file *source.File, toks []Token) (any, *Mismatch) {
	p.feed = p.feed[:0]
	for i, t := range toks {
		value := ""
		switch {
		case t.Kind == Comma:
			value = ","
		case t.Kind == Colon:
			value = ":"
		case p.list[i].word > 0:
			value = strings.ToLower(file.Text(t.Span))
		}
		p.feed = append(p.feed, lexer.Token{Type: tokenType(t.Kind), Value: value, Pos: lexer.Position{Offset: i}})
	}
	p.feed = append(p.feed, lexer.EOFToken(lexer.Position{Offset: len(toks)}))
	peeking, err := lexer.Upgrade(&tokenList{toks: p.feed})
	if err != nil {
		return nil, &Mismatch{}
	}
	tree, err := g.parse(peeking)
	if err == nil {
		return tree, nil
	}
	bad := &Mismatch{At: len(toks)}
	var unexpected *participle.UnexpectedTokenError
	if errors.As(err, &unexpected) {
		bad.At = unexpected.Unexpected.Pos.Offset
	}
	return nil, bad
}

// Expected is what could stand behind the first tokens of an entry, for an
// editor that completes it; at is the index of the first token that does not
// fit, or the number of tokens.
func (g *Grammar) Expected(file *source.File, toks []Token) (at int, want []Terminal) {
	path := g.Path(file, toks)
	last := 0
	if len(path) > 0 {
		last = path[len(path)-1].Spot
	}
	return len(path), g.auto.expected(last)
}

// definition tells participle the kinds of token. Its Lex is never called: the
// Parser hands tokens over itself.
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
