package entry

import "github.com/budstick/budstick/grammar/fact"

type price struct {
	Of      name           `parser:"'price' @@"`
	Clauses []*priceClause `parser:"@@*"`
}

type priceClause struct {
	At     *each    `parser:"  'at' @@"`
	Pot    *measure `parser:"| 'pot' @@"`
	To     *name    `parser:"| 'to' @@"`
	Remark *remark  `parser:"| @@"`
}

var priceKind = kindOf(Kind{
	Summary: "what is asked for a variety, from a day on",
	Text: "A sale without a price is at the closest of these that holds on its day: `to`" + ` one buyer goes before a kind of buyer, as parties are declared ` +
		"(`party Bob as trade`), and that before everyone; `pot 3 L`" + ` before any pot. ` + "`per kg`" + ` is a price of fruit, and ` + "`each`" + ` one of plants. What is written on a sale ` +
		`always goes before.`,
	Pattern: `price Amberlight at 19.00 each`,
	Samples: []string{
		`price Amberlight pot 3 L to trade at 9.80 each`,
		`price Amberlight at 3.20 per kg`,
		`price "Quince BA" to Bob at 3.00 EUR each note "plain stocks"`,
	},
}, func(r *reader, s *price) fact.Effect {
	e := &fact.Quote{Of: r.name(&s.Of)}
	for _, c := range s.Clauses {
		r.put(&e.To, "to", c.To)
		r.putMeasure(&e.Pot, "pot", c.Pot, "a pot", fact.Litre, fact.Millilitre, fact.Gallon, fact.Centimetre, fact.Millimetre, fact.Inch)
		r.remark(c.Remark)
		if c.At != nil {
			r.putMoney(&e.Each, "at", &c.At.Money)
			if given(c.At.Per) {
				e.Per = r.oneOf(fact.Quantity{Unit: r.unit(*c.At.Per), Given: true, Span: r.span(*c.At.Per)}, "fruit", weights...).Unit
			}
		}
	}
	r.needsAny(e.Each.Given, "say the price of one, or of a kilo of fruit: at 19.00 each, at 3.20 per kg")
	if e.Per != "" && e.Pot.Given {
		r.errorf(e.Pot.Span, "clause-misplaced", "fruit by weight is in no pot; leave out pot %s %s, or price the plants each", e.Pot.Value, e.Pot.Unit)
	}
	return e
})
