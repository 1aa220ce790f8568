package entry

import "github.com/budstick/budstick/grammar/fact"

type rate struct {
	Of      money     `parser:"'rate' @@"`
	Is      money     `parser:"'is' @@"`
	Clauses []*common `parser:"@@*"`
}

var rateKind = kindOf(Kind{
	Summary: "what one currency is worth in another, from a day on",
	Text:    `Foreign money is valued by the last rate on or before its day.`,
	Pattern: `rate 1 USD is 0.92 EUR`,
}, func(r *reader, s *rate) fact.Effect {
	e := &fact.Rate{Of: r.money(&s.Of), Is: r.money(&s.Is)}
	switch {
	case e.Of.Amount.Zero() || e.Is.Amount.Zero():
		r.errorf(e.Of.Span, "zero", "a rate of 0 says nothing")
	case e.Of.Currency == e.Is.Currency:
		r.errorf(e.Is.Span, "currency", "a rate is between two currencies: rate 1 USD is 0.92 EUR")
	}
	r.commons(s.Clauses)
	return e
})
