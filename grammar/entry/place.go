package entry

import "github.com/budstick/budstick/grammar/fact"

type place struct {
	Name    name           `parser:"'place' @@"`
	Clauses []*placeClause `parser:"@@*"`
}

type placeClause struct {
	Area   *measure `parser:"  'area' @@"`
	Holds  *ref     `parser:"| 'holds' @Int"`
	Common *common  `parser:"| @@"`
}

var placeKind = kindOf(Kind{
	Summary: "a place where plants stand",
	Text:    "A place lives from its first use and need not be declared. `area` is what it measures, `holds` how many plants it has room for.",
	Pattern: `place shade-1 area 60 m2 holds 900`,
	Samples: []string{`place terrace-3 area 0.4 ha`},
}, func(r *reader, s *place) fact.Effect {
	e := &fact.Place{Name: r.name(&s.Name)}
	for _, c := range s.Clauses {
		r.putMeasure(&e.Area, "area", c.Area, "an area", fact.SquareM, fact.Hectare)
		r.putCount(&e.Holds, "holds", c.Holds)
		r.extra(c.Common)
	}
	return e
})
