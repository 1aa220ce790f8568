package entry

import "github.com/budstick/budstick/grammar/fact"

type giveBack struct {
	Count   count           `parser:"'return' @@"`
	State   *state          `parser:"( @@"`
	Dead    *ref            `parser:"| @'dead' )"`
	Of      name            `parser:"'of' @@"`
	Clauses []*returnClause `parser:"@@*"`
}

type returnClause struct {
	From    *name   `parser:"  'from' @@"`
	As      *name   `parser:"| 'as' @@"`
	For     *money  `parser:"| 'for' @@"`
	Because *ref    `parser:"| 'because' @Quoted"`
	Common  *common `parser:"| @@"`
}

var returnKind = kindOf(Kind{
	Summary: "plants that were sold come back",
	Text: `They come back in the state that is said, always into a lot of their own; dead ones make no lot. ` + "`for`" + ` is the money that was paid ` +
		`back.`,
	Pattern: `return 1 failed of AM26 from "Harbour Street market" as RT26 for 19.00 because "dead top"`,
	Samples: []string{
		`return 2 living of AM26 from Bob as RT27 at quarantine`,
		`return 1 dead of AM26 from Bob for 19.00`,
	},
}, func(r *reader, s *giveBack) fact.Effect {
	e := &fact.Return{
		Count: r.exact(&s.Count, "the number that came back"),
		State: r.state(s.State), Dead: given(s.Dead), Of: r.name(&s.Of),
	}
	for _, c := range s.Clauses {
		r.put(&e.From, "from", c.From)
		r.put(&e.As, "as", c.As)
		r.putMoney(&e.Total, "for", c.For)
		r.putText(&e.Why, "because", c.Because)
		r.extra(c.Common)
	}
	if e.Dead {
		r.forbids(e.As, "dead plants make no lot; leave out as")
	} else {
		r.needs(e.As, "what comes back needs a lot of its own: as RT26")
	}
	return e
})
