package entry

import "github.com/budstick/budstick/grammar/fact"

type cause struct {
	Name    name      `parser:"'cause' @@"`
	Clauses []*common `parser:"@@*"`
}

var causeKind = kindOf(Kind{
	Summary: "a cause of loss",
	Text:    `A cause lives from its first use and need not be declared.`,
	Pattern: `cause frost`,
	Samples: []string{`cause "root rot" note "wet feet after the autumn rain"`},
}, func(r *reader, s *cause) fact.Effect {
	e := &fact.Cause{Name: r.name(&s.Name)}
	r.commons(s.Clauses)
	return e
})
