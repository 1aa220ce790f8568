package entry

import "github.com/budstick/budstick/grammar/fact"

type graft struct {
	Count   count          `parser:"'graft' @@"`
	Limbs   *ref           `parser:"( @'limbs'"`
	State   *state         `parser:"| @@ )?"`
	Of      name           `parser:"'of' @@"`
	Clauses []*graftClause `parser:"@@*"`
}

type graftClause struct {
	With    *names   `parser:"  'with' @@"`
	Over    *name    `parser:"| 'over' @@"`
	Into    *name    `parser:"| 'into' @@"`
	By      *name    `parser:"| 'by' @@"`
	As      *name    `parser:"| 'as' @@"`
	Scions  *ref     `parser:"| 'scions' @Int"`
	Beside  *ref     `parser:"| @'beside'"`
	Caliper *measure `parser:"| 'caliper' @@"`
	Common  *common  `parser:"| @@"`
}

var graftKind = kindOf(Kind{
	Summary: "scions or buds are set on stocks and a lot of grafts begins",
	Text: `Takes living stocks out of a lot (or failed ones, if the word stands before ` + "`of`" + `) and makes a lot in which ` +
		`every plant waits for its check. ` + "`with`" + ` names the wood: a bundle, or the tree it came from; a list makes a set. ` +
		"`over`" + ` names the interstock's wood, ` + "`scions 2`" + ` sets two on each stock, ` + "`beside`" + ` leaves the old top in place. ` +
		"`graft 6 limbs of M9`" + ` works limbs of a standing tree, and ` + "`graft 4 of TR24 into L1 by inarch`" + ` gives a tree new roots: ` +
		`those stocks are used up and make no lot.`,
	Pattern: `graft 48 of QA25 with W7 by whip-and-tongue as AM26`,
	Samples: []string{
		`graft 6 failed of AM26 with M7 by bark as AM26b`,
		`graft 6 limbs of M9 with M7 by bark as TW26 scions 2`,
		`graft 8 of QB24 with W7 over WI by whip-and-tongue as IT25 caliper 9 mm worker Ines 1 h, Ru 1 h`,
		`graft 4 of TR24 into L1 by inarch`,
		`graft 3 of QA25 with M8 by cleft as FT26 beside tag trial`,
	},
}, func(r *reader, s *graft) fact.Effect {
	e := &fact.Graft{Count: r.exact(&s.Count, "the number grafted"), State: r.state(s.State), Of: r.name(&s.Of)}
	if given(s.Limbs) {
		e.Noun = fact.Limbs
	}
	for _, c := range s.Clauses {
		r.graftClause(e, c)
	}
	switch {
	case e.Into.Given():
		r.forbids(e.As, "stocks grafted into a standing tree become its roots and make no lot; leave out as")
	case !r.failed:
		r.needsAny(len(e.With) > 0, "a graft needs wood, from a bundle or a mother tree: with W7")
		r.needs(e.As, "a graft needs a name for the lot it makes: as AM26")
	}
	return e
})

func (r *reader) graftClause(e *fact.Graft, c *graftClause) {
	r.putNames(&e.With, "with", c.With)
	r.put(&e.Over, "over", c.Over)
	r.put(&e.Into, "into", c.Into)
	r.put(&e.By, "by", c.By)
	r.put(&e.As, "as", c.As)
	r.putCount(&e.Scions, "scions", c.Scions)
	if given(c.Beside) {
		r.once("beside", e.Beside, *c.Beside)
		e.Beside = true
	}
	r.putMeasure(&e.Caliper, "caliper", c.Caliper, "a caliper", calipers...)
	r.extra(c.Common)
}

// calipers are the units in which a stem is measured.
var calipers = []fact.Unit{fact.Millimetre, fact.Centimetre, fact.Inch}
