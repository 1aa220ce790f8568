package entry

import "github.com/budstick/budstick/grammar/fact"

type allow struct {
	Rule    name           `parser:"'allow' @@"`
	Clauses []*allowClause `parser:"@@*"`
}

type allowClause struct {
	On      *name   `parser:"  'on' @@"`
	Because *ref    `parser:"| 'because' @Quoted"`
	Common  *common `parser:"| @@"`
}

var allowKind = kindOf(Kind{
	Summary: "one rule is silent about one thing",
	Text:    `The rule says nothing more about that thing, and the reason stays on record. An entry that contradicts the book, or a broken seal, can't be allowed.`,
	Pattern: `allow old-wood on AM26 because "kept at 3 degrees"`,
}, func(r *reader, s *allow) fact.Effect {
	e := &fact.Allow{Rule: r.name(&s.Rule)}
	for _, c := range s.Clauses {
		r.put(&e.On, "on", c.On)
		r.putText(&e.Why, "because", c.Because)
		r.extra(c.Common)
	}
	r.needs(e.On, "say what it is allowed on: on AM26")
	r.needs(e.Why, `say why it is allowed: because "kept at 3 degrees"`)
	return e
})
