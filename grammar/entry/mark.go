package entry

import "github.com/budstick/budstick/grammar/fact"

type mark struct {
	Of      name          `parser:"'mark' @@"`
	Mark    marking       `parser:"@@"`
	Clauses []*markClause `parser:"@@*"`
}

// marking is a mark that a tree, limb, lot or variety can have.
type marking struct {
	Word ref `parser:"@('off-type' | 'sick' | 'verified')"`
}

type markClause struct {
	Because *ref    `parser:"  'because' @Quoted"`
	Common  *common `parser:"| @@"`
}

var markKind = kindOf(Kind{
	Summary: "a tree, limb, lot or variety gets a mark",
	Text: "`off-type`: it is not what its name says. `sick`: nothing should be taken from it. `verified`: someone has looked, and it is true to its name. " +
		"The mark stays until it is cleared.",
	Pattern: `mark M8 off-type because "fruit round"`,
	Samples: []string{`mark AM26 sick because "canker on the stocks" at shade-1`},
}, func(r *reader, s *mark) fact.Effect { return r.mark(&s.Of, &s.Mark, s.Clauses, false) })

type unmark struct {
	Of      name          `parser:"'clear' @@"`
	Mark    marking       `parser:"@@"`
	Clauses []*markClause `parser:"@@*"`
}

var clearKind = kindOf(Kind{
	Summary: "a mark is taken off again",
	Text:    `The mark no longer stands from this day on; what happened before keeps it.`,
	Pattern: `clear M8 sick`,
	Samples: []string{`clear M8 sick because "two clean tests"`},
}, func(r *reader, s *unmark) fact.Effect { return r.mark(&s.Of, &s.Mark, s.Clauses, true) })

func (r *reader) mark(of *name, m *marking, list []*markClause, off bool) *fact.Mark {
	e := &fact.Mark{Of: r.name(of), Mark: fact.Name{Text: r.word(m.Word), Span: r.span(m.Word)}, Clear: off}
	for _, c := range list {
		r.putText(&e.Why, "because", c.Because)
		r.extra(c.Common)
	}
	return e
}
