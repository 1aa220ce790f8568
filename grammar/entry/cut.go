package entry

import "github.com/budstick/budstick/grammar/fact"

type cut struct {
	Count   count        `parser:"'cut' @@"`
	Scions  *ref         `parser:"( @'scions'"`
	Sticks  *ref         `parser:"| @'sticks'"`
	Buds    *ref         `parser:"  ('of' @Int 'buds')? )"`
	Clauses []*cutClause `parser:"@@*"`
}

type cutClause struct {
	From    *names   `parser:"  'from' @@"`
	As      *name    `parser:"| 'as' @@"`
	Store   *name    `parser:"| 'store' @@"`
	Caliper *measure `parser:"| 'caliper' @@"`
	Common  *common  `parser:"| @@"`
}

var cutKind = kindOf(Kind{
	Summary: "wood is cut from a tree and a bundle begins",
	Text: `Makes a bundle of scion wood, which is reckoned in scions: ` + "`20 sticks of 5 buds`" + ` makes 100, and sticks of unknown buds make an ` +
		`unknown number. A list of trees makes a mixed bundle, and its grafts come from one of them. ` + "`store`" + ` says how the wood is kept.`,
	Pattern: `cut 60 scions from M7 as W7 store cool`,
	Samples: []string{
		`cut 20 sticks of 5 buds from P2 as WP`,
		`cut about 30 sticks from M7, M8 as W78 caliper 9 mm note "pencil thick, three buds"`,
	},
}, func(r *reader, s *cut) fact.Effect {
	e := &fact.Cut{Count: r.count(&s.Count), Noun: fact.Scions}
	if given(s.Sticks) {
		e.Noun = fact.Sticks
		r.putCount(&e.Buds, "of", s.Buds)
	}
	for _, c := range s.Clauses {
		r.putNames(&e.From, "from", c.From)
		r.put(&e.As, "as", c.As)
		r.put(&e.Store, "store", c.Store)
		r.putMeasure(&e.Caliper, "caliper", c.Caliper, "a caliper", calipers...)
		r.extra(c.Common)
	}
	r.needsAny(len(e.From) > 0, "wood is cut from a tree: from M7")
	r.needs(e.As, "wood needs a name for the bundle it makes: as W7")
	return e
})
