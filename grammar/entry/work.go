package entry

import "github.com/budstick/budstick/grammar/fact"

type work struct {
	Task    name          `parser:"'work' @@"`
	Clauses []*workClause `parser:"@@*"`
}

type workClause struct {
	For    *names  `parser:"  'for' @@"`
	Common *common `parser:"| @@"`
}

var workKind = kindOf(Kind{
	Summary: "a task is done",
	Text: `The task is a word of your own. With ` + "`for`" + ` the hours belong to those lots, shared by the plants that stand in them that day; without, ` +
		`they are shared by all.`,
	Pattern: `work weeding worker Ines 2 h`,
	Samples: []string{`work weeding worker Ru 3 h, Ines 1 h 30 min for AM26`},
}, func(r *reader, s *work) fact.Effect {
	e := &fact.Work{Task: r.name(&s.Task)}
	for _, c := range s.Clauses {
		r.putNames(&e.For, "for", c.For)
		r.extra(c.Common)
	}
	r.needsAny(r.ext != nil && len(r.ext.Workers) > 0, "say who did it and how long it took: worker Ines 2 h")
	return e
})
