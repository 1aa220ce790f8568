package entry

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/source"
)

// strike's words are captured as one run of tokens, whatever they are.
type strike struct {
	Line    ref       `parser:"'strike' 'line' @Int"`
	Words   []ref     `parser:"@((!'because')*)"`
	Because ref       `parser:"'because' @Quoted"`
	Clauses []*common `parser:"@@*"`
}

var strikeKind = kindOf(Kind{
	Summary: "an earlier entry of this file no longer counts",
	Text: `This, and not an edit, is how a record is put right. The words between the number and ` + "`because`" + ` must be the beginning of that ` +
		`line, so that a wrong number shows. The journal is read as if the entry were not there, which may also be one that can't be read. A strike, a seal and a farm can't be struck.`,
	Pattern: `strike line 41 check AM26 because "tray counted twice"`,
	Samples: []string{`strike line 12 sow 120 seed of "Quince BA" because "wrong seed"`},
}, func(r *reader, s *strike) fact.Effect {
	line := r.some(s.Line)
	e := &fact.Strike{Line: line.N, Why: r.quoted(s.Because)}
	e.Span = fact.Name{Text: r.raw(s.Line), Span: r.span(s.Line)}
	if n := len(s.Words); n > 0 {
		words := source.Span{Start: r.span(s.Words[0]).Start, End: r.span(s.Words[n-1]).End}
		e.Words = r.file.Text(words)
		e.Span = fact.Name{Text: e.Span.Text + " " + e.Words, Span: source.Span{Start: e.Span.Span.Start, End: words.End}}
	}
	r.commons(s.Clauses)
	return e
})
