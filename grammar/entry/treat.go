package entry

import "github.com/budstick/budstick/grammar/fact"

type treat struct {
	Of      names          `parser:"'treat' @@"`
	Clauses []*treatClause `parser:"@@*"`
}

type treatClause struct {
	With       *name    `parser:"  'with' @@"`
	Registered *name    `parser:"| 'registered' @@"`
	Reentry    *measure `parser:"| 're-entry' @@"`
	Because    *ref     `parser:"| 'because' @Quoted"`
	Common     *common  `parser:"| @@"`
}

var treatKind = kindOf(Kind{
	Summary: "plants or places are treated with a product",
	Text: "Lots, trees or whole places. `with`" + ` is the product and ` + "`registered`" + ` the number it is registered under; ` + "`re-entry`" + ` is how long its label keeps ` +
		"people out, in `h` or `days`. How much of it, on what and with which gloves is said by the label and the law of the place, never here: do not write a dose.",
	Pattern: `treat AM26, RW26 with "copper soap" registered "ES-00417" re-entry 24 h because "leaf spot"`,
	Samples: []string{`treat shade-1 with "sticky traps" worker Ru 30 min`, `treat M7 with "horticultural oil" registered "ES-00231" re-entry 2 days`},
}, func(r *reader, s *treat) fact.Effect {
	e := &fact.Treat{Of: r.names(&s.Of)}
	for _, c := range s.Clauses {
		r.put(&e.With, "with", c.With)
		r.put(&e.Number, "registered", c.Registered)
		r.putText(&e.Why, "because", c.Because)
		if c.Reentry != nil {
			r.once("re-entry", e.Reentry.Given, c.Reentry.Value)
			e.Reentry = r.oneOf(r.measure(c.Reentry), "re-entry", fact.Hour, fact.Day)
		}
		r.extra(c.Common)
	}
	r.needs(e.With, `a treatment names its product: with "copper soap"`)
	return e
})
