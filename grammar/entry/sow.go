package entry

import "github.com/budstick/budstick/grammar/fact"

type sow struct {
	Count   count        `parser:"'sow' @@"`
	Variety name         `parser:"'seed' 'of' @@"`
	Clauses []*buyClause `parser:"@@*"`
}

var sowKind = kindOf(Kind{
	Summary: "seed is sown and a lot begins",
	Text: `Makes a lot in which every seed is waiting. The seed may be from a tree or lot of the farm ` +
		`(` + "`from M3`" + `) or from a party. What comes up is said by ` + "`check`" + `: seeds that came up, and the plants ` +
		`they gave where that is more. A seedling of a monoembryonic variety is a plant of its own and never that variety.`,
	Pattern: `sow 120 seed of "Quince BA" as QA25 from "Seed merchant" for 14.00`,
	Samples: []string{`sow about 200 seed of "Quince BA" as QB25 at shade-1 worker Ru 40 min`},
}, func(r *reader, s *sow) fact.Effect {
	e := &fact.Begin{How: fact.Sown, Noun: fact.Seed, Count: r.count(&s.Count), Of: r.name(&s.Variety)}
	r.buyClauses(e, s.Clauses)
	r.needs(e.As, "a sowing needs a name for the lot it makes: as QA25")
	return e
})
