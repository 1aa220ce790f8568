package entry

import "github.com/budstick/budstick/grammar/fact"

type method struct {
	Name    name            `parser:"'method' @@"`
	Clauses []*methodClause `parser:"@@*"`
}

type methodClause struct {
	Check  *measure `parser:"  'check' 'after' @@"`
	Stale  *measure `parser:"| 'stale' 'after' @@"`
	Common *common  `parser:"| @@"`
}

var methodKind = kindOf(Kind{
	Summary: "a method of grafting of your own, or other days for a known one",
	Text:    "`check after`" + ` says when a first look tells something, ` + "`stale after`" + ` from when on a look no longer tells when a graft failed.`,
	Pattern: `method patch check after 21 days`,
	Samples: []string{`method "bark under glass" check after 4 weeks stale after 70 days`},
}, func(r *reader, s *method) fact.Effect {
	e := &fact.Method{Name: r.name(&s.Name)}
	for _, c := range s.Clauses {
		r.putMeasure(&e.Check, "check after", c.Check, "time", ages...)
		r.putMeasure(&e.Stale, "stale after", c.Stale, "time", ages...)
		r.extra(c.Common)
	}
	return e
})

// ages are the units of an age.
var ages = []fact.Unit{fact.Day, fact.Week, fact.Month}
