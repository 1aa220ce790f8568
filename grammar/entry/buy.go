package entry

import "github.com/budstick/budstick/grammar/fact"

type buy struct {
	Count   count        `parser:"'buy' @@"`
	Noun    ref          `parser:"@('liners' | 'seed' | 'scions' | 'trees')"`
	Of      name         `parser:"'of' @@"`
	Clauses []*buyClause `parser:"@@*"`
}

// buyClause is a clause of what comes in from outside: bought or sown.
type buyClause struct {
	As     *name   `parser:"  'as' @@"`
	From   *names  `parser:"| 'from' @@"`
	For    *money  `parser:"| 'for' @@"`
	Common *common `parser:"| @@"`
}

// boughtNouns are what can be bought.
var boughtNouns = map[string]fact.Noun{
	"liners": fact.Liners, "seed": fact.Seed, "scions": fact.Scions, "trees": fact.Trees,
}

var buyKind = kindOf(Kind{
	Summary: "liners, trees, seed or scions come from outside",
	Text: "Liners and trees make a lot of living plants, seed a lot that is not sown yet and waits, scions a bundle of wood. " +
		"`for`" + ` is what was paid for all of it.`,
	Pattern: `buy 50 liners of "Quince BA" as QB26 from "Valley Liners" for 87.50`,
	Samples: []string{
		`buy 40 scions of Amberlight as WB26 from Bob for 20.00 EUR`,
		`buy 300 seed of "Quince BA" as QS26 from "Seed merchant" for 12.00`,
		`buy 2 trees of Firstfig as FB26 from "Valley Liners" for 36 at quarantine`,
	},
}, func(r *reader, s *buy) fact.Effect {
	e := &fact.Begin{
		How: fact.Bought, Count: r.exact(&s.Count, "the number bought"),
		Noun: boughtNouns[r.word(s.Noun)], Of: r.name(&s.Of),
	}
	r.buyClauses(e, s.Clauses)
	r.needs(e.As, "what is bought needs a name for the lot or bundle it makes: as QB26")
	return e
})

func (r *reader) buyClauses(e *fact.Begin, list []*buyClause) {
	for _, c := range list {
		r.put(&e.As, "as", c.As)
		r.putNames(&e.From, "from", c.From)
		r.putMoney(&e.Total, "for", c.For)
		r.extra(c.Common)
	}
}
