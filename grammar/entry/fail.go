package entry

import "github.com/budstick/budstick/grammar/fact"

type fail struct {
	Part    part          `parser:"'fail' @@"`
	Clauses []*turnClause `parser:"@@*"`
}

type turnClause struct {
	To      *name   `parser:"  'to' @@"`
	Because *ref    `parser:"| 'because' @Quoted"`
	Common  *common `parser:"| @@"`
}

var failKind = kindOf(Kind{
	Summary: "tops that had taken died, and their stocks live",
	Text: `Turns living plants to failed, after their check, which stays on record. Up to the day of the first check the take is put right ` +
		`as well; later it is a late failure. ` + "`to`" + ` names the cause.`,
	Pattern: `fail 2 of AM26 to frost`,
	Samples: []string{`fail 1 attached of AP26 because "the top dried before it was severed"`},
}, func(r *reader, s *fail) fact.Effect {
	e := &fact.Turn{How: fact.FailedLate}
	e.Count, e.State, e.Lot = r.part(&s.Part, "the number that failed")
	r.turnClauses(e, s.Clauses)
	return e
})

type revive struct {
	Part    part          `parser:"'revive' @@"`
	Clauses []*turnClause `parser:"@@*"`
}

var reviveKind = kindOf(Kind{
	Summary: "buds that were given up have pushed after all",
	Text:    `Turns failed plants to living, and their attempts count as having taken.`,
	Pattern: `revive 2 failed of AM26`,
	Samples: []string{`revive 1 of AM26 because "the bud pushed in the second flush"`},
}, func(r *reader, s *revive) fact.Effect {
	e := &fact.Turn{How: fact.Revived}
	e.Count, e.State, e.Lot = r.part(&s.Part, "the number revived")
	r.only(s.Part.State, fact.Failed, "only failed plants can be revived: revive 2 failed of AM26")
	r.turnClauses(e, s.Clauses)
	return e
})

func (r *reader) turnClauses(e *fact.Turn, list []*turnClause) {
	for _, c := range list {
		r.put(&e.To, "to", c.To)
		r.putText(&e.Why, "because", c.Because)
		r.extra(c.Common)
	}
}
