package entry

import "github.com/budstick/budstick/grammar/fact"

type limit struct {
	Rule    name           `parser:"'limit' @@"`
	Value   measure        `parser:"@@"`
	Clauses []*limitClause `parser:"@@*"`
}

type limitClause struct {
	For    *name   `parser:"  'for' @@"`
	Common *common `parser:"| @@"`
}

var limitKind = kindOf(Kind{
	Summary: "a rule of thumb is changed",
	Text: `The tool's rules of thumb are nobody's law: how old wood may be, how soon a graft is checked, what share of loss is normal. ` + "`for`" + ` limits ` +
		`it to a species, a variety, a method or a place.`,
	Pattern: `limit old-wood 21 days`,
	Samples: []string{`limit loss 15 %`, `limit old-wood 5 days for "Eriobotrya japonica"`},
}, func(r *reader, s *limit) fact.Effect {
	e := &fact.Limit{Rule: r.name(&s.Rule), Value: r.measure(&s.Value)}
	for _, c := range s.Clauses {
		r.put(&e.For, "for", c.For)
		r.extra(c.Common)
	}
	return e
})
