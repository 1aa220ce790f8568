package entry

import "github.com/budstick/budstick/grammar/fact"

type move struct {
	Plants  portion       `parser:"'move' @@"`
	Clauses []*moveClause `parser:"@@*"`
}

type moveClause struct {
	To     *name   `parser:"  'to' @@"`
	As     *name   `parser:"| 'as' @@"`
	Common *common `parser:"| @@"`
}

var moveKind = kindOf(Kind{
	Summary: "plants go to another place",
	Text: `No count changes. Without a number all plants of the lot that stand free are moved; a part of them needs ` + "`as`" + ` and becomes a ` +
		`lot of its own, unless it is all there is.`,
	Pattern: `move AM26 to shade-2`,
	Samples: []string{`move 20 of AM26 to shade-2 as AM26w`},
}, func(r *reader, s *move) fact.Effect {
	e := &fact.Pass{How: fact.Moved}
	r.portion(e, &s.Plants, "the number moved")
	for _, c := range s.Clauses {
		r.put(&e.To, "to", c.To)
		r.put(&e.As, "as", c.As)
		r.extra(c.Common)
	}
	r.needs(e.To, "say where they went: to shade-2")
	return e
})
