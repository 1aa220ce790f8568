// Package syntax reads the text of a journal: it cuts a file into entries at
// column one, entries into tokens, and fits tokens to the grammar of the
// entry's verb. It is the only package that knows participle, and knows nothing
// of what entries mean.
//
// A file goes through in three steps, each of which never fails:
//
//	Chunks  cuts the file at lines that start in column one
//	Lex     cuts one chunk into tokens; what is no token becomes a Bad one
//	Grammar.Parse  fits the tokens to one verb's sentence
//
// so that a broken entry costs itself and nothing else.
package syntax

import (
	"github.com/alecthomas/participle/v2/lexer"

	"github.com/budstick/budstick/grammar/source"
)

// Kind is what a token is.
type Kind uint8

// The kinds of token. A Word is a bare name or a word of the language; a
// Reserved one can't be a name. A Unit or a Currency stands only behind a
// number, or a Unit behind per.
const (
	EOF Kind = iota
	Word
	Reserved
	Quoted
	Int
	Decimal
	Date
	Month
	Unit
	Currency
	Comma
	Colon
	Cross
	Bad
)

// names are the kinds as the struct tags of grammars and the EBNF write them.
var names = [...]string{"EOF", "Word", "Reserved", "Quoted", "Int", "Decimal", "Date", "Month",
	"Unit", "Currency", "Comma", "Colon", "Cross", "Bad"}

func (k Kind) String() string { return names[k] }

// A Token is one token of an entry. Its text is the bytes of its span.
type Token struct {
	Kind Kind
	Why  Fault // of a Bad token
	Span source.Span
}

// Ref stands in a parsed sentence for one of the entry's tokens: its
// Pos.Offset is the token's index. A Ref's Value holds words of the language
// only, since parsed sentences are shared between entries of one shape.
type Ref = lexer.Token
