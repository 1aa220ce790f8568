package entry

import "github.com/budstick/budstick/grammar/fact"

type limit struct {
	Rule    name           `parser:"'limit' @@"`
	Value   ref            `parser:"@(Int | Decimal)"`
	Unit    *ref           `parser:"@Unit?"`
	Clauses []*limitClause `parser:"@@*"`
}

type limitClause struct {
	For    *name   `parser:"  'for' @@"`
	Common *common `parser:"| @@"`
}

var limitKind = kindOf(Kind{
	Summary: "a rule of thumb is changed",
	Text: `The tool's rules of thumb are nobody's law: how old wood may be, how soon a graft is checked, what share of loss is normal. ` + "`for`" + ` limits ` +
		`it to a species, a variety or a method. A limit that is a plain number has no unit.`,
	Pattern: `limit old-wood 21 days`,
	Samples: []string{`limit loss 15 %`, `limit old-wood 5 days for "Eriobotrya japonica"`, `limit scions-per-stock 4`},
}, func(r *reader, s *limit) fact.Effect {
	e := &fact.Limit{Rule: r.name(&s.Rule)}
	if given(s.Unit) {
		e.Value = r.measure(&measure{s.Value, *s.Unit})
	} else {
		e.Value = fact.Quantity{Value: r.decimal(s.Value), Given: true, Span: r.span(s.Value)}
	}
	for _, c := range s.Clauses {
		r.put(&e.For, "for", c.For)
		r.extra(c.Common)
	}
	return e
})
