package entry

import "github.com/budstick/budstick/grammar/fact"

type plant struct {
	Part    part           `parser:"'plant' @@"`
	Clauses []*plantClause `parser:"@@*"`
}

type plantClause struct {
	As      *name   `parser:"  'as' @@"`
	Through *name   `parser:"  ('to' @@)?"`
	Variety *name   `parser:"| 'variety' @@"`
	Common  *common `parser:"| @@"`
}

var plantKind = kindOf(Kind{
	Summary: "plants of a lot are set out, as trees of their own",
	Text: `A plant with a name becomes a tree that is followed on its own, and its line goes on. Several are named from the first to the last. ` +
		"Without `as`" + ` they leave the book.`,
	Pattern: `plant 1 of AM26 as M41 at terrace-5`,
	Samples: []string{`plant 12 of LN25 as R2/1 to R2/12 at row-2`, `plant 1 of TR24 as M50 variety Redwing`, `plant 3 waiting of TR24 at hedge`},
}, func(r *reader, s *plant) fact.Effect {
	e := &fact.Plant{}
	e.Count, e.State, e.Of = r.part(&s.Part, "the number planted")
	for _, c := range s.Clauses {
		r.put(&e.As, "as", c.As)
		r.put(&e.Through, "as", c.Through)
		r.put(&e.Variety, "variety", c.Variety)
		r.extra(c.Common)
	}
	return e
})
