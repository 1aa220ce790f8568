package lsp

import (
	"bytes"
	"context"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/grammar/syntax"
)

// tokenTypes are those of the protocol's that come nearest to what stands in a
// journal; tokenModifiers what more is said of them.
var (
	tokenTypes     = []string{"keyword", "variable", "class", "namespace", "parameter", "string", "number", "type", "comment", "event", "property"}
	tokenModifiers = []string{"declaration"}
)

const (
	keywordToken = iota
	variableToken
	classToken
	namespaceToken
	parameterToken
	stringToken
	numberToken
	typeToken
	commentToken
	eventToken
	propertyToken
)

func tokenLegend() object {
	return object{"tokenTypes": tokenTypes, "tokenModifiers": tokenModifiers}
}

// A token is a stretch of a block, on one line, of a type.
type token struct {
	span source.Span
	kind int
	made bool
}

// findTokens tells what stands in a block: as far as it can be read, by the
// names in it and the slots of its sentences.
func (b *block) findTokens() []token {
	if b.bad >= 0 {
		return nil
	}
	c := colourer{block: b, names: map[source.Span]mention{}}
	for _, m := range b.names() {
		c.names[m.span] = m
	}
	at := int32(0)
	for _, chunk := range b.chunks() {
		c.comments(at, chunk.Span.Start)
		c.chunk(chunk)
		at = chunk.Span.End
	}
	c.comments(at, int32(len(b.file.Bytes)))
	return c.list
}

// A colourer gathers the tokens of a block in order.
type colourer struct {
	*block
	names map[source.Span]mention
	list  []token
}

func (c *colourer) put(s source.Span, kind int) { c.list = append(c.list, token{span: s, kind: kind}) }

// comments finds the comments between two offsets, between which nothing else
// stands.
func (c *colourer) comments(from, to int32) {
	for from < to {
		rest := c.file.Bytes[from:to]
		i := bytes.IndexByte(rest, '#')
		if i < 0 {
			return
		}
		line, _, _ := bytes.Cut(rest[i:], []byte{'\n'})
		start := from + int32(i)
		c.put(source.Span{Start: start, End: start + int32(len(bytes.TrimRight(line, " \t\r")))}, commentToken)
		from = start + int32(len(line))
	}
}

func (c *colourer) chunk(chunk syntax.Chunk) {
	toks := syntax.Lex(c.file.Bytes, chunk.Span, nil)
	var path []syntax.Slot
	kind, known := entry.Named(c.file.Text(toks[0].Span))
	if known && !chunk.Stray {
		path = kind.Grammar.Path(c.file, toks)
	}
	isDay := syntax.IsDay(c.file)(chunk.Span)
	at := chunk.Span.Start
	for i, t := range toks {
		c.comments(at, t.Span.Start)
		at = t.Span.End
		switch {
		case isDay:
			c.put(t.Span, eventToken)
		case i < len(path):
			c.inSlot(t, path[i])
		default:
			c.loose(t)
		}
	}
	c.comments(at, chunk.Span.End)
}

// inSlot tells what a token is by the slot that it fills.
func (c *colourer) inSlot(t syntax.Token, slot syntax.Slot) {
	if m, ok := c.names[t.Span]; ok {
		c.list = append(c.list, token{t.Span, nameToken(m.of), m.made})
		return
	}
	if slot.Literal != "" && !slot.Not && (t.Kind == syntax.Word || t.Kind == syntax.Reserved) {
		c.put(t.Span, keywordToken)
		return
	}
	if t.Kind == syntax.Word {
		c.put(t.Span, variableToken)
		return
	}
	c.loose(t)
}

// loose tells what a token is by itself.
func (c *colourer) loose(t syntax.Token) {
	switch t.Kind {
	case syntax.Quoted:
		c.put(t.Span, stringToken)
	case syntax.Int, syntax.Decimal, syntax.Date, syntax.Month:
		c.put(t.Span, numberToken)
	case syntax.Unit, syntax.Currency:
		c.put(t.Span, typeToken)
	case syntax.Reserved:
		c.put(t.Span, keywordToken)
	}
}

// nameToken is the type for a name of a class.
func nameToken(of class) int {
	switch of {
	case varieties:
		return classToken
	case places:
		return namespaceToken
	case workers, parties:
		return parameterToken
	}
	if of&(things|varieties) == 0 {
		return propertyToken
	}
	return variableToken
}

type semanticData struct {
	Data []uint32 `json:"data"`
}

// semanticTokens tells what stands in the file.
func semanticTokens(_ context.Context, d document, _ struct{}) (any, error) {
	return d.tokensIn(source.Span{End: d.len()}), nil
}

func semanticTokensRange(_ context.Context, d document, p documentRange) (any, error) {
	start, ok1 := d.offset(p.Range.Start, d.encoding)
	end, ok2 := d.offset(p.Range.End, d.encoding)
	if !ok1 || !ok2 || end < start {
		return nil, invalid("the range is no part of the text")
	}
	return d.tokensIn(source.Span{Start: start, End: end}), nil
}

// tokensIn is the tokens that a span touches, five numbers each, the place of
// each told from the one before (LSP 3.17, Semantic Tokens).
func (d document) tokensIn(s source.Span) semanticData {
	out := semanticData{Data: []uint32{}}
	var last position
	for i := d.at(s.Start); i < len(d.blocks) && d.starts[i] <= s.End; i++ {
		for _, t := range d.blocks[i].tokens() {
			at := shifted(t.span, d.starts[i])
			if at.End < s.Start || at.Start > s.End {
				continue
			}
			where := d.rangeOf(at, d.encoding)
			line, column := where.Start.Line-last.Line, where.Start.Character
			if line == 0 {
				column -= last.Character
			}
			modifiers := uint32(0)
			if t.made {
				modifiers = 1
			}
			out.Data = append(out.Data, uint32(line), uint32(column), uint32(where.End.Character-where.Start.Character), uint32(t.kind), modifiers)
			last = where.Start
		}
	}
	return out
}
