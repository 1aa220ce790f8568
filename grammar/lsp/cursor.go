package lsp

import (
	"sort"

	"github.com/budstick/budstick/grammar/fact"
	spelling "github.com/budstick/budstick/grammar/name"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/grammar/syntax"
)

// A day is a day line of a block.
type day struct {
	chunk syntax.Chunk
	date  fact.Date
}

func (b *block) findChunks() []syntax.Chunk {
	var list []syntax.Chunk
	syntax.Chunks(b.file, syntax.IsDay(b.file), func(c syntax.Chunk) bool {
		list = append(list, c)
		return true
	})
	return list
}

// findDays lists the lines that name a day. One whose weekday is wrong is among
// them: for an editor it is a day all the same.
func (b *block) findDays() []day {
	var list []day
	isDay := syntax.IsDay(b.file)
	for _, c := range b.chunks() {
		if c.Stray || !isDay(c.Span) {
			continue
		}
		first := syntax.Lex(b.file.Bytes, c.Span, nil)[0]
		if date, ok := fact.ParseDate(syntax.Hyphens(b.file.Text(first.Span))); ok {
			list = append(list, day{c, date})
		}
	}
	return list
}

// dayAt is the day that what stands at an offset stands under.
func (b *block) dayAt(off int32) fact.Date {
	days := b.days()
	i := sort.Search(len(days), func(i int) bool { return days[i].chunk.Span.Start > off })
	if i == 0 {
		return b.from.Date()
	}
	return days[i-1].date
}

// chunkAt is the entry or day at an offset, or the last one before it.
func (b *block) chunkAt(off int32) (syntax.Chunk, bool) {
	list := b.chunks()
	i := sort.Search(len(list), func(i int) bool { return list[i].Span.Start > off })
	if i == 0 {
		return syntax.Chunk{}, false
	}
	return list[i-1], true
}

// A cursor is a place in a text, with the token that it touches. All offsets
// are those of the block.
type cursor struct {
	block *block
	start int32 // of the block in the text
	off   int32
	toks  []syntax.Token // of the entry, or of none
	on    int            // the token; -1 where there is none
}

// cursorAt is the cursor at a place that an editor names.
func (d document) cursorAt(p position) (cursor, error) {
	off, ok := d.offset(p, d.encoding)
	if !ok {
		return cursor{}, invalid("%s has no line %d", d.uri, p.Line)
	}
	i := d.at(off)
	c := cursor{block: d.blocks[i], start: d.starts[i], off: off - d.starts[i], on: -1}
	chunk, ok := c.block.chunkAt(c.off)
	if !ok || c.block.bad >= 0 {
		return c, nil
	}
	c.toks = syntax.Lex(c.block.file.Bytes, chunk.Span, nil)
	for j, t := range c.toks {
		if t.Span.Start <= c.off && c.off <= t.Span.End {
			c.on = j // of two that touch, the later
		}
	}
	return c, nil
}

// mention is the name that the cursor touches. In an entry that can't be read
// any word may be one.
func (c cursor) mention() (mention, bool) {
	if c.on < 0 {
		return mention{}, false
	}
	names := c.block.names()
	for _, m := range names {
		if m.span.Start <= c.off && c.off <= m.span.End {
			return m, true
		}
	}
	if c.readable() {
		return mention{}, false
	}
	return loose(c.block.file, c.toks[c.on])
}

// readable reports whether the entry at hand can be read.
func (c cursor) readable() bool {
	at := c.toks[0].Span.Start
	list := c.block.page.Entries
	i := sort.Search(len(list), func(i int) bool { return list[i].Span.Start >= at })
	return i < len(list) && list[i].Span.Start == at
}

// loose is a token taken for a name, whatever it may be the name of.
func loose(f *source.File, t syntax.Token) (mention, bool) {
	text := f.Text(t.Span)
	switch t.Kind {
	case syntax.Word:
		text = syntax.Hyphens(text)
	case syntax.Quoted:
		text = syntax.Unquote(text)
	default:
		return mention{}, false
	}
	return mention{span: t.Span, key: spelling.Fold(text), of: named}, true
}
