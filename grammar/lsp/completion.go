package lsp

import (
	"context"
	"fmt"
	"strings"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/grammar/syntax"
)

// The kinds of completions of the protocol that come nearest.
const (
	itemField    = 5
	itemVariable = 6
	itemClass    = 7
	itemUnit     = 11
	itemValue    = 12
	itemKeyword  = 14
	itemSnippet  = 15
	itemFolder   = 19
	itemEvent    = 23
)

type completionList struct {
	IsIncomplete bool             `json:"isIncomplete"`
	Items        []completionItem `json:"items"`
}

type completionItem struct {
	Label         string         `json:"label"`
	Kind          int            `json:"kind"`
	Detail        string         `json:"detail,omitempty"`
	Documentation *markupContent `json:"documentation,omitempty"`
	SortText      string         `json:"sortText"`
	FilterText    string         `json:"filterText,omitempty"`
	Format        int            `json:"insertTextFormat,omitempty"`
	TextEdit      textEdit       `json:"textEdit"`
}

// mostNames is how many names of a kind are shown at once; typing on narrows
// them.
const mostNames = 200

// The ranks of completions: what is likeliest comes first.
const (
	rankToday = iota
	rankVerb
	rankSentence
	rankThere // things of which something is there
	rankNames
	rankGone
	rankUnit
	rankWord   // of the entry's own
	rankCommon // of any entry
)

// A gap is the place that a completion fills: from the beginning of what is
// written of a word to the cursor.
type gap struct {
	document
	cursor
	from    int32 // in the block
	written string
	list    completionList
	names   map[int]int // how many are shown, by kind
}

// complete offers what could stand at the cursor.
func complete(ctx context.Context, d document, p documentPosition) (any, error) {
	c, err := d.cursorAt(p.Position)
	if err != nil {
		return nil, err
	}
	g := &gap{document: d, cursor: c, list: completionList{Items: []completionItem{}}, names: map[int]int{}}
	line, ok := g.begin()
	switch {
	case !ok:
		return g.list, nil
	case line == "":
		g.beginnings()
		return g.list, nil
	}
	r, err := within(ctx, d.journal.replayed)
	if err != nil {
		return nil, err
	}
	g.continuations(r)
	return g.list, nil
}

// begin finds what is written of the word at the cursor, and returns what stands
// before it on the line. It reports false in a comment.
func (g *gap) begin() (before string, ok bool) {
	b := g.block.file.Bytes
	start := g.off
	for start > 0 && b[start-1] != '\n' {
		start--
	}
	line := string(b[start:g.off])
	quoted, escaped, word := false, false, 0
	for i, c := range line {
		switch {
		case escaped:
			escaped = false
		case quoted && c == '\\':
			escaped = true
		case c == '"':
			if quoted = !quoted; quoted {
				word = i
			}
		case quoted:
		case c == '#':
			return "", false
		case strings.ContainsRune(" \t,:\r\u00a0", c):
			word = i + len(string(c))
		}
	}
	g.from, g.written = start+int32(word), line[word:]
	return line[:word], true
}

// offer puts a completion on the list: text in place of what is written, shown
// under a label.
func (g *gap) offer(rank, kind int, label, text, detail string) *completionItem {
	item := completionItem{Label: label, Kind: kind, Detail: detail, SortText: fmt.Sprintf("%d%05d", rank, len(g.list.Items))}
	item.FilterText = label
	if strings.HasPrefix(g.written, `"`) {
		item.FilterText = `"` + label
	}
	at := source.Span{Start: g.from, End: g.off}
	item.TextEdit = textEdit{g.rangeOf(shifted(at, g.start), g.encoding), text}
	g.list.Items = append(g.list.Items, item)
	return &g.list.Items[len(g.list.Items)-1]
}

// begins reports whether something begins with what is written, in whatever
// case.
func (g *gap) begins(label string) bool {
	written := strings.TrimPrefix(g.written, `"`)
	return len(label) >= len(written) && strings.EqualFold(label[:len(written)], written)
}

// beginnings offers what can stand in the first column: today, and each kind of
// entry as its verb and as a whole sentence.
func (g *gap) beginnings() {
	if today := g.Today(); today > g.block.dayAt(g.off) {
		line := today.String() + " " + today.Weekday().String()[:3]
		if g.begins(line) {
			g.offer(rankToday, itemEvent, line, line+"\n", "today")
		}
	}
	for _, k := range entry.All {
		if !g.begins(k.Verb) {
			continue
		}
		g.offer(rankVerb, itemKeyword, k.Verb, k.Verb+" ", k.Summary).Documentation = g.markup(kindPage(k))
		if g.client.TextDocument.Completion.CompletionItem.SnippetSupport {
			item := g.offer(rankSentence, itemSnippet, k.Pattern, snippet(k, k.Pattern), k.Summary)
			item.Format = snippetFormat
		}
	}
}

// continuations offers how the entry at the cursor can go on.
func (g *gap) continuations(r *replay) {
	chunk, ok := g.block.chunkAt(g.from)
	if !ok || syntax.IsDay(g.block.file)(chunk.Span) {
		return
	}
	toks := syntax.Lex(g.block.file.Bytes, source.Span{Start: chunk.Span.Start, End: g.from}, nil)
	if len(toks) == 0 {
		return
	}
	kind, ok := entry.Named(g.block.file.Text(toks[0].Span))
	if !ok {
		return
	}
	path := kind.Grammar.Path(g.block.file, toks)
	_, want := kind.Grammar.Expected(g.block.file, toks)
	word := leadOf(path)
	if len(path) < len(toks) { // it went wrong before: whatever could follow the last word that is known
		want, word = anything(kind, g.block.file, toks)
	}
	for _, t := range want {
		switch {
		case t.Not:
		case t == syntax.Terminal{Kind: syntax.Word}:
			g.offerNames(r, slotAt(kind.Verb, word))
		case t.Kind == syntax.Date && g.begins(g.Today().String()):
			g.offer(rankToday, itemEvent, g.Today().String(), g.Today().String(), "today")
		case t.Kind == syntax.Unit:
			g.units()
		}
	}
	for _, t := range want {
		if (t.Kind == syntax.Word || t.Kind == syntax.Reserved) && t.Literal != "" && !t.Not && g.begins(t.Literal) {
			g.offer(clauseRank(t.Literal), itemKeyword, t.Literal, t.Literal, "")
		}
	}
}

// anything is what could stand somewhere in a sentence that has gone wrong, and
// its last word that is one of the language.
func anything(k *entry.Kind, f *source.File, toks []syntax.Token) (want []syntax.Terminal, word string) {
	for _, t := range toks {
		if text := strings.ToLower(f.Text(t.Span)); k.Grammar.Knows(text) {
			word = text
		}
	}
	last := toks[len(toks)-1]
	if strings.EqualFold(f.Text(last.Span), word) || last.Kind == syntax.Comma {
		want = append(want, syntax.Terminal{Kind: syntax.Word})
	}
	for _, w := range k.Grammar.Words() {
		want = append(want, syntax.Terminal{Kind: syntax.Word, Literal: w})
	}
	return want, word
}

// clauseRank puts the clauses that any entry takes last.
func clauseRank(word string) int {
	switch word {
	case "note", "tag", "cost", "happened", "about", "worker":
		return rankCommon
	}
	return rankWord
}

// units offers the units that follow a number.
func (g *gap) units() {
	for _, u := range syntax.UnitSpellings() {
		if unit, _ := syntax.UnitNamed(u); strings.EqualFold(string(unit), u) && g.begins(u) {
			g.offer(rankUnit, itemUnit, string(unit), string(unit), "")
		}
	}
}
