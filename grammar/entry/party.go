package entry

import "github.com/budstick/budstick/grammar/fact"

type party struct {
	Name    name        `parser:"'party' @@"`
	Clauses []*asClause `parser:"@@*"`
}

var partyKind = kindOf(Kind{
	Summary: "someone outside the farm",
	Text:    "A customer, a supplier or the holder of a licence. A party lives from its first use and need not be declared.",
	Pattern: `party Bob as customer`,
	Samples: []string{`party "Valley Liners" as supplier note "delivers in March"`},
}, func(r *reader, s *party) fact.Effect {
	e := &fact.Party{Name: r.name(&s.Name)}
	r.asClauses(&e.As, s.Clauses)
	return e
})
