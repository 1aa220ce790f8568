package lsp

import (
	"fmt"
	"strings"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/grammar/syntax"
)

// snippetFormat is InsertTextFormat.Snippet.
const snippetFormat = 2

// snippet makes a sentence with a stop at everything in it that is no word of
// the language (LSP 3.17, Snippet Syntax).
func snippet(k *entry.Kind, sentence string) string {
	file := source.New("", []byte(sentence))
	toks := syntax.Lex(file.Bytes, source.Span{End: int32(len(sentence))}, nil)
	path := k.Grammar.Path(file, toks)
	var b strings.Builder
	at, stop := int32(0), 0
	for i, t := range toks {
		b.WriteString(escapeSnippet(sentence[at:t.Span.Start]))
		text := file.Text(t.Span)
		switch {
		case i < len(path) && path[i].Literal != "" && !path[i].Not:
			b.WriteString(escapeSnippet(text))
		case t.Kind == syntax.Quoted:
			stop++
			fmt.Fprintf(&b, `"${%d:%s}"`, stop, escapeSnippet(text[1:len(text)-1]))
		default:
			stop++
			fmt.Fprintf(&b, "${%d:%s}", stop, escapeSnippet(text))
		}
		at = t.Span.End
	}
	return b.String() + "$0"
}

var escapeSnippet = strings.NewReplacer(`\`, `\\`, `$`, `\$`, `}`, `\}`).Replace
