package entry

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/syntax"
)

// note is read with one token of care: the first may be a name or, if no other
// text follows it, the note itself.
type note struct {
	First   name      `parser:"'note' @@"`
	More    []name    `parser:"(',' @@)*"`
	Text    *ref      `parser:"@Quoted?"`
	Clauses []*common `parser:"@@*"`
}

var noteKind = kindOf(Kind{
	Summary: "something is worth writing down",
	Text:    `A note on lots or trees, or with nothing named on the day. It changes nothing.`,
	Pattern: `note AM26 "second flush"`,
	Samples: []string{`note "first frost of the season, all under cover"`, `note M7, M8 "in full bloom" tag bloom`},
}, func(r *reader, s *note) fact.Effect {
	e := &fact.Remark{}
	switch alone := len(s.More) == 0; {
	case given(s.Text):
		e.Of = r.names(&names{append([]name{s.First}, s.More...)})
		e.Text = r.quoted(*s.Text)
	case alone && r.toks[index(s.First.Ref)].Kind == syntax.Quoted:
		e.Text = r.quoted(s.First.Ref)
	default:
		r.errorf(r.spanAt(len(r.toks)), "clause-missing", `the note itself is missing; it stands in quotes: note %s "second flush"`, r.raw(s.First.Ref))
	}
	r.commons(s.Clauses)
	return e
})
