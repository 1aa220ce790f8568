package entry

import "github.com/budstick/budstick/grammar/fact"

type worker struct {
	Name    name      `parser:"'worker' @@"`
	Wage    *wage     `parser:"@@?"`
	Clauses []*common `parser:"@@*"`
}

type wage struct {
	Money money `parser:"@@"`
	Per   ref   `parser:"'per' @Unit"`
}

var workerKind = kindOf(Kind{
	Summary: "a person who works, and the wage",
	Text:    "The wage holds from the day the entry stands under, or always where it stands before the first day. On other entries `worker Ines 2 h`" + ` says who did it.`,
	Pattern: `worker Ines 14.50 per h`,
	Samples: []string{`worker Ru note "two days a week"`},
}, func(r *reader, s *worker) fact.Effect {
	e := &fact.Worker{Name: r.name(&s.Name)}
	if w := s.Wage; w != nil {
		e.Wage = r.money(&w.Money)
		e.Per = r.unit(w.Per)
		if e.Per != fact.Hour && e.Per != fact.Minute && e.Per != fact.Day {
			r.errorf(r.span(w.Per), "unit", "a wage is per h: worker Ines 14.50 per h")
		}
	}
	r.commons(s.Clauses)
	return e
})
