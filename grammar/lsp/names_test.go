package lsp

import (
	"slices"
	"testing"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/grammar/syntax"
)

// notNames are the slots that hold a word which is the name of nothing.
var notNames = []lead{
	{"farm", "farm"}, {"farm", "currency"}, {"farm", "from"}, {"farm", "country"}, {"farm", "registration"},
	{"variety", "picks"}, {"variety", "as"}, {"variety", "licence"}, {"party", "as"}, {"seal", "sha256"},
}

// Every name in the sentences with which kinds of entry explain themselves is
// known for one, so a kind that is added can't be forgotten here.
func TestEveryNameIsKnown(t *testing.T) {
	for _, k := range entry.All {
		for _, sentence := range k.Sentences() {
			file := source.New("", []byte(sentence))
			all := source.Span{End: int32(len(sentence))}
			e, findings, ok := entry.NewReader(file).Entry(syntax.Chunk{Span: all, Line: 1}, latest)
			if !ok {
				t.Errorf("%s: %v", sentence, findings)
				continue
			}
			known := mentionsIn(&e)
			toks := syntax.Lex(file.Bytes, all, nil)
			path := k.Grammar.Path(file, toks)
			for i, slot := range path {
				if slot.Literal != "" || slot.Not || toks[i].Kind != syntax.Word || file.Text(toks[i].Span) == "unknown" {
					continue
				}
				isName := slices.ContainsFunc(known, func(m mention) bool { return m.span == toks[i].Span })
				at := lead{k.Verb, leadOf(path[:i])}
				if isName == slices.Contains(notNames, at) {
					t.Errorf("%s: %s behind %q is a name: %v", sentence, file.Text(toks[i].Span), at.word, isName)
				}
			}
		}
	}
}
