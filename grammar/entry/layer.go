package entry

import "github.com/budstick/budstick/grammar/fact"

type layer struct {
	Count   count          `parser:"'layer' @@"`
	On      *name          `parser:"( 'on' @@"`
	Again   *name          `parser:"| 'failed' 'of' @@ )"`
	Clauses []*rootsClause `parser:"@@*"`
}

var layerKind = kindOf(Kind{
	Summary: "branches are layered on the tree and a lot begins",
	Text: `Makes a lot of layers that wait on their mother. A check says which ones rooted, and ` + "`sever`" + ` makes plants of those. ` +
		"`layer 1 failed of FG25`" + ` sets a layer that made no roots once more.`,
	Pattern: `layer 8 on F2 as FG26 hormone IBA 3000 ppm wound 25 mm`,
	Samples: []string{`layer 1 failed of FG25 as FG25b worker Ru 15 min`},
}, func(r *reader, s *layer) fact.Effect {
	e := &fact.Layer{Count: r.exact(&s.Count, "the number of layers"), On: r.name(s.On)}
	if s.Again != nil {
		e.On, e.Again = r.name(s.Again), true
	}
	for _, c := range s.Clauses {
		r.rootsClause(c, &e.As, &e.Rooting)
	}
	r.needs(e.As, "layers need a name for the lot they make: as FG26")
	return e
})
