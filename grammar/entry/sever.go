package entry

import "github.com/budstick/budstick/grammar/fact"

// asClause is a clause of what does nothing but make a lot or say what it is as.
type asClause struct {
	As     *name   `parser:"  'as' @@"`
	Common *common `parser:"| @@"`
}

func (r *reader) asClauses(as *fact.Name, list []*asClause) {
	for _, c := range list {
		r.put(as, "as", c.As)
		r.extra(c.Common)
	}
}

type sever struct {
	Part    part        `parser:"'sever' @@"`
	Clauses []*asClause `parser:"@@*"`
}

var severKind = kindOf(Kind{
	Summary: "rooted layers or approach grafts leave the mother",
	Text:    "Attached plants become living ones, in the same lot or, with `as`, in a lot of their own.",
	Pattern: `sever 7 of FG26`,
	Samples: []string{`sever 3 of FG26 as FG26s at mist-1 worker Ines 25 min`},
}, func(r *reader, s *sever) fact.Effect {
	e := &fact.Pass{How: fact.Severed}
	r.pass(e, &s.Part, "the number severed")
	r.only(s.Part.State, fact.Attached, "only what is rooted or took, and still hangs on its mother, can be severed: sever 7 of FG26")
	r.asClauses(&e.As, s.Clauses)
	return e
})

type release struct {
	Part    part        `parser:"'release' @@"`
	Clauses []*asClause `parser:"@@*"`
}

var releaseKind = kindOf(Kind{
	Summary: "stocks whose grafts failed go back to being plain stocks",
	Text:    `Takes failed plants out of a lot of grafts and makes a lot of plain stocks of them. How often they were worked stays with them.`,
	Pattern: `release 4 failed of AM26 as QA25r`,
}, func(r *reader, s *release) fact.Effect {
	e := &fact.Pass{How: fact.Released}
	r.pass(e, &s.Part, "the number released")
	r.only(s.Part.State, fact.Failed, "only failed plants can be released: release 4 failed of AM26 as QA25r")
	r.asClauses(&e.As, s.Clauses)
	r.needs(e.As, "released stocks need a lot of their own: as QA25r")
	return e
})

type split struct {
	Part    part        `parser:"'split' @@"`
	Clauses []*asClause `parser:"@@*"`
}

var splitKind = kindOf(Kind{
	Summary: "some plants of a lot become a lot of their own",
	Text:    `The new lot has the same past: what it was grafted from, its attempts and its checks.`,
	Pattern: `split 10 of AM26 as AM26c`,
	Samples: []string{`split 4 failed of AM26 as AM26f at shade-2`},
}, func(r *reader, s *split) fact.Effect {
	e := &fact.Pass{How: fact.SplitOff}
	r.pass(e, &s.Part, "the number split off")
	r.asClauses(&e.As, s.Clauses)
	r.needs(e.As, "what is split off needs a name: as AM26c")
	return e
})
