package entry

import "github.com/budstick/budstick/grammar/fact"

type tend struct {
	Lots    names     `parser:"'tend' @@"`
	Job     *ref      `parser:"( @('ties' | 'headed' | 'rubbed' | 'girdled' | 'pruned' | 'rewrapped' | 'verified')"`
	Sprayed *ref      `parser:"| @'sprayed'"`
	With    *name     `parser:"  @@ )"`
	Clauses []*common `parser:"@@*"`
}

var tendKind = kindOf(Kind{
	Summary: "a job is done on lots or trees",
	Text: "`ties` were taken off, tops were `headed` back, shoots of the stock `rubbed` off, limbs `girdled`, trees `pruned`, layers `rewrapped`," + ` ` +
		"the variety `verified`" + `, or something was ` + "`sprayed`" + `. What may be sprayed and how is said by the label and the law of the place, never here.`,
	Pattern: `tend AM26 ties`,
	Samples: []string{`tend AM26 headed`, `tend AM26, AM26b rubbed`, `tend M7 girdled`, `tend M7, M8 pruned`, `tend FG26 rewrapped`, `tend AM26, M7 sprayed "copper soap" worker Ru 30 min`, `tend M7 verified note "leaf and fruit"`},
}, func(r *reader, s *tend) fact.Effect {
	e := &fact.Tend{Lots: r.names(&s.Lots), With: r.name(s.With)}
	job := s.Job
	if job == nil {
		job = s.Sprayed
	}
	e.Job = fact.Name{Text: r.word(*job), Span: r.span(*job)}
	r.commons(s.Clauses)
	return e
})
