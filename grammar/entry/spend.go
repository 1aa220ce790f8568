package entry

import "github.com/budstick/budstick/grammar/fact"

type spend struct {
	Amount  money          `parser:"'spend' @@"`
	Clauses []*spendClause `parser:"@@*"`
}

type spendClause struct {
	On     *name    `parser:"  'on' @@"`
	For    *names   `parser:"| 'for' @@"`
	To     *name    `parser:"| 'to' @@"`
	Over   *measure `parser:"| 'over' @@"`
	Common *common  `parser:"| @@"`
}

var spendKind = kindOf(Kind{
	Summary: "money goes out",
	Text: "`on` says what for, and need not be declared. With `for`" + ` the cost belongs to those lots, shared by the plants that stand in them that day; ` +
		`without, it is shared by all. ` + "`over 10 years`" + ` spreads it, and ` + "`to`" + ` names who was paid.`,
	Pattern: `spend 64.20 on "pots" for AM26, FG26`,
	Samples: []string{`spend 1200 on "shade house" over 10 years`, `spend 38.40 USD on "grafting tape" to "Valley Liners" for QA25`},
}, func(r *reader, s *spend) fact.Effect {
	e := &fact.Spend{Amount: r.money(&s.Amount)}
	for _, c := range s.Clauses {
		r.put(&e.On, "on", c.On)
		r.putNames(&e.For, "for", c.For)
		r.put(&e.From, "to", c.To)
		r.putMeasure(&e.Over, "over", c.Over, "how long it lasts", fact.Year, fact.Month, fact.Week, fact.Day)
		r.extra(c.Common)
	}
	r.needs(e.On, `say what the money was for: on "pots"`)
	return e
})
