package entry

import "github.com/budstick/budstick/grammar/fact"

type pot struct {
	Plants  portion      `parser:"'pot' @@"`
	Clauses []*potClause `parser:"@@*"`
}

type potClause struct {
	Size   *measure `parser:"  'to' ( @@"`
	Label  *name    `parser:"        | @@ )"`
	As     *name    `parser:"| 'as' @@"`
	Common *common  `parser:"| @@"`
}

var potKind = kindOf(Kind{
	Summary: "plants go into other pots",
	Text: `No count changes. Without a number all plants of the lot that stand free are potted; a part of them needs ` + "`as`" + ` and becomes a ` +
		`lot of its own, unless it is all there is. The pot is a volume, a width or a word of your own.`,
	Pattern: `pot AM26 to 3 L`,
	Samples: []string{`pot 20 of AM26 to 15 cm as AM26p`, `pot FG26 to "long pot" worker Ru 1.5 h cost 12.00`},
}, func(r *reader, s *pot) fact.Effect {
	e := &fact.Pass{How: fact.Potted}
	r.portion(e, &s.Plants, "the number potted")
	for _, c := range s.Clauses {
		r.putMeasure(&e.Pot, "to", c.Size, "a pot", fact.Litre, fact.Millilitre, fact.Gallon, fact.Centimetre, fact.Millimetre, fact.Inch)
		r.put(&e.Label, "to", c.Label)
		r.put(&e.As, "as", c.As)
		r.extra(c.Common)
	}
	r.needsAny(e.Pot.Given || e.Label.Given(), "say which pot they went into: to 3 L")
	return e
})

// portion fills in which plants go on, some or all.
func (r *reader) portion(e *fact.Pass, p *portion, what string) {
	if p.Part != nil {
		r.pass(e, p.Part, what)
		return
	}
	e.Lot = r.name(p.Whole)
}
