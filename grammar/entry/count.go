package entry

import "github.com/budstick/budstick/grammar/fact"

type stocktake struct {
	Lots    names     `parser:"'count' @@ ':'?"`
	Count   count     `parser:"@@"`
	State   *state    `parser:"@@?"`
	Off     *offCount `parser:"(',' @@)?"`
	Clauses []*common `parser:"@@*"`
}

// offCount is by how many the count differs from the book.
type offCount struct {
	N     ref    `parser:"@Int"`
	Which ref    `parser:"@('missing' | 'over')"`
	State *state `parser:"@@?"`
}

var countKind = kindOf(Kind{
	Summary: "a lot is counted",
	Text: `A stocktake of all plants that stand in the lot, or with a state word of those. What is written must equal what is reckoned, ` +
		"or it is an error that shows both. `2 missing` or `2 over`" + ` accepts the difference: the reckoning goes on from what was counted, and the ` +
		`difference is kept as unexplained. It changes the living plants unless a state follows. Several lots counted together may only agree.`,
	Pattern: `count AM26 27`,
	Samples: []string{
		`count AM26 21 living`,
		`count AM26 25, 2 missing`,
		`count AM26: 30, 1 over waiting worker Ru 10 min`,
		`count AM25t, AM25e 42`,
	},
}, func(r *reader, s *stocktake) fact.Effect {
	if given(s.Count.About) {
		r.errorf(r.span(*s.Count.About), "about", "a stocktake must be exact; leave out about")
	}
	e := &fact.Stocktake{Lots: r.names(&s.Lots), Count: r.number(s.Count.N), State: r.state(s.State)}
	if off := s.Off; off != nil {
		n := r.some(off.N)
		if r.word(off.Which) == "missing" {
			e.Missing = n
		} else {
			e.Over = n
		}
		e.Of = r.state(off.State)
		if len(e.Lots) > 1 && !r.failed {
			r.errorf(n.Span, "count-several", "a difference belongs to one lot; count the lots one by one")
		}
	}
	r.commons(s.Clauses)
	return e
})
