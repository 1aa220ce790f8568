package entry

import "github.com/budstick/budstick/grammar/fact"

type paid struct {
	Amount  money         `parser:"'paid' @@"`
	Clauses []*paidClause `parser:"@@*"`
}

type paidClause struct {
	From   *name   `parser:"  'from' @@"`
	Paper  *name   `parser:"| 'paper' @@"`
	Common *common `parser:"| @@"`
}

var paidKind = kindOf(Kind{
	Summary: "a customer pays",
	Text: "Money in for what was sold. `paper`" + ` names the invoice or delivery note it is for. What a customer owes is only reckoned where payments are ` +
		`written; money that goes out is spent.`,
	Pattern: `paid 110.40 from "Olive Lane Nurseries" paper "note 2024-04"`,
	Samples: []string{`paid 25 USD from Bob note "in notes"`},
}, func(r *reader, s *paid) fact.Effect {
	e := &fact.Paid{Amount: r.money(&s.Amount)}
	for _, c := range s.Clauses {
		r.put(&e.From, "from", c.From)
		r.put(&e.Paper, "paper", c.Paper)
		r.extra(c.Common)
	}
	r.needs(e.From, `say who paid: from "Harbour Street market"`)
	if e.Amount.Amount.Zero() {
		r.errorf(e.Amount.Span, "zero", "a payment of 0 says nothing; leave the entry out")
	}
	return e
})
