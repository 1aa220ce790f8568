package entry

import "github.com/budstick/budstick/grammar/fact"

type share struct {
	Labels  names          `parser:"'share' @@"`
	Clauses []*shareClause `parser:"@@*"`
}

type shareClause struct {
	By     *ref    `parser:"  'by' @('plant-days' | 'area-days' | 'count')"`
	Common *common `parser:"| @@"`
}

var shareKind = kindOf(Kind{
	Summary: "how costs that name no lot are shared, from a day on",
	Text: "The names are what is spent `on`, or the task that is worked at. " + "`plant-days`" + ` counts each plant for every day that it stands, and is meant ` +
		"where nothing is declared; `area-days`" + ` counts the room of its pot instead; ` + "`count`" + ` counts each plant once. What names a lot is never shared ` +
		`by others.`,
	Pattern: `share water, feed by plant-days`,
	Samples: []string{`share "shade house" by area-days`, `share certificates by count note "one fee a plant"`},
}, func(r *reader, s *share) fact.Effect {
	e := &fact.Share{Labels: r.names(&s.Labels)}
	said := false
	for _, c := range s.Clauses {
		if c.By != nil {
			r.once("by", said, *c.By)
			e.By, _ = fact.ParseBase(r.word(*c.By))
			said = true
		}
		r.extra(c.Common)
	}
	r.needsAny(said, "say by what it is shared: by plant-days, by area-days or by count")
	return e
})
