package entry

import "github.com/budstick/budstick/grammar/fact"

// part is some plants of a lot: 4 failed of AM26.
type part struct {
	Count count  `parser:"@@"`
	State *state `parser:"@@?"`
	Of    name   `parser:"'of' @@"`
}

// portion is some plants of a lot, or all of it.
type portion struct {
	Part  *part `parser:"  @@"`
	Whole *name `parser:"| @@"`
}

func (r *reader) part(p *part, what string) (fact.Count, fact.State, fact.Name) {
	return r.exact(&p.Count, what), r.state(p.State), r.name(&p.Of)
}

// pass fills in which plants go on.
func (r *reader) pass(e *fact.Pass, p *part, what string) {
	e.Count, e.State, e.Lot = r.part(p, what)
}

// only reports a state that an act does not draw from.
func (r *reader) only(s *state, draws fact.State, say string) {
	if got := r.state(s); got != fact.AnyState && got != draws {
		r.errorf(r.span(s.Word), "state", "%s", say)
	}
}
