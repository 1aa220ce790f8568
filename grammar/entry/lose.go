package entry

import "github.com/budstick/budstick/grammar/fact"

type lose struct {
	Goods   goods         `parser:"'lose' @@"`
	Clauses []*turnClause `parser:"@@*"`
}

var loseKind = kindOf(Kind{
	Summary: "plants or wood die or disappear",
	Text: `They leave with a cause, which need not be declared; where nobody knows, the cause is ` + "`unknown`" + `. Living plants are meant ` +
		"unless a state stands before `of`. Without a number the whole lot is lost, or that tree with all that waits or hangs on it.",
	Pattern: `lose 2 of AM26 to frost`,
	Samples: []string{`lose 1 waiting of AM26 to rot`, `lose M9 to "root rot" happened 2026-02-27`, `lose about 4 kg fruit of M7 to wasps`, `lose about 10 scions of W7 to mould because "the cooler failed"`},
}, func(r *reader, s *lose) fact.Effect {
	e := &fact.Leave{How: fact.Lost}
	r.goods(e, &s.Goods, "")
	r.leaveClauses(e, s.Clauses)
	r.needs(e.To, "a loss needs its cause: to frost, or: to unknown")
	return e
})

type cull struct {
	Goods   goods         `parser:"'cull' @@"`
	Clauses []*turnClause `parser:"@@*"`
}

var cullKind = kindOf(Kind{
	Summary: "plants or wood are thrown out by choice",
	Text:    `A choice and not a death: ` + "`because`" + ` says why.`,
	Pattern: `cull 3 of AM26 because "poor union"`,
	Samples: []string{`cull 4 failed of AM26`, `cull W7 because "too old"`},
}, func(r *reader, s *cull) fact.Effect {
	e := &fact.Leave{How: fact.Culled}
	r.goods(e, &s.Goods, "")
	r.leaveClauses(e, s.Clauses)
	r.forbids(e.To, "what is culled is thrown out by choice; write why: because \"poor union\"; what died is lost: lose 3 of AM26 to frost")
	return e
})

func (r *reader) leaveClauses(e *fact.Leave, list []*turnClause) {
	for _, c := range list {
		r.put(&e.To, "to", c.To)
		r.putText(&e.Why, "because", c.Because)
		r.extra(c.Common)
	}
}
