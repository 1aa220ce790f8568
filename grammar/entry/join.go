package entry

import "github.com/budstick/budstick/grammar/fact"

type join struct {
	Lots    names       `parser:"'join' @@"`
	Clauses []*asClause `parser:"@@*"`
}

var joinKind = kindOf(Kind{
	Summary: "lots become one",
	Text:    `The new lot remembers every origin, and its plants come from one of them. Lots with waiting plants can't be joined: check them first.`,
	Pattern: `join AM26, AM26b as AM26t`,
}, func(r *reader, s *join) fact.Effect {
	e := &fact.Join{Lots: r.names(&s.Lots)}
	r.asClauses(&e.As, s.Clauses)
	r.needsAny(len(e.Lots) > 1, "at least two lots are joined: join AM26, AM26b as AM26t")
	r.needs(e.As, "lots that are joined need a new name: as AM26t")
	return e
})
