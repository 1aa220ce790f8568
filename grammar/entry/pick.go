package entry

import "github.com/budstick/budstick/grammar/fact"

type pick struct {
	Crops   []*crop       `parser:"'pick' @@ (',' @@)*"`
	Clauses []*pickClause `parser:"@@*"`
}

type crop struct {
	About *ref `parser:"@'about'?"`
	N     ref  `parser:"@(Int | Decimal)"`
	Unit  *ref `parser:"( @Unit"`
	Fruit *ref `parser:"| @'fruit' )"`
}

type pickClause struct {
	From   *names  `parser:"  'from' @@"`
	Common *common `parser:"| @@"`
}

var pickKind = kindOf(Kind{
	Summary: "fruit is picked",
	Text:    `The tree's own record: the weight of the crop, the number of fruit, or both.`,
	Pattern: `pick 31.5 kg, 420 fruit from M7`,
	Samples: []string{`pick about 12 kg from TW26`, `pick 60 fruit from M7, M8 worker Ines 40 min`},
}, func(r *reader, s *pick) fact.Effect {
	e := &fact.Pick{}
	for _, c := range s.Crops {
		if given(c.Unit) {
			r.once("the weight", e.Mass.Given, c.N)
			e.Mass = r.oneOf(r.measure(&measure{c.N, *c.Unit}), "fruit", weights...)
			e.Mass.About = given(c.About)
			continue
		}
		r.once("the number of fruit", e.Fruit.Given, c.N)
		e.Fruit = r.whole(c.N)
		e.Fruit.About = given(c.About)
	}
	for _, c := range s.Clauses {
		r.putNames(&e.From, "from", c.From)
		r.extra(c.Common)
	}
	r.needsAny(len(e.From) > 0, "say which tree it was picked from: from M7")
	return e
})
