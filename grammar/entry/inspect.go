package entry

import "github.com/budstick/budstick/grammar/fact"

type inspect struct {
	Of      names            `parser:"'inspect' @@"`
	Clauses []*inspectClause `parser:"@@*"`
}

type inspectClause struct {
	By          *name   `parser:"  'by' @@"`
	Certificate *name   `parser:"| 'certificate' @@"`
	Until       *ref    `parser:"| 'until' @Date"`
	Common      *common `parser:"| @@"`
}

var inspectKind = kindOf(Kind{
	Summary: "an inspector looks at lots, trees, places or the whole farm",
	Text: "`by`" + ` is who looked, ` + "`certificate`" + ` the number of the paper that came of it, and ` + "`until`" + ` the last day on which it is valid. ` +
		`The farm's own name stands for all of it. Whether plants need a paper, and which, is for the plant health authority to say.`,
	Pattern: `inspect AM26, RW26 by "Plant health office" certificate "2026-0417" until 2027-03-31`,
	Samples: []string{`inspect "Kestrel Hollow" certificate "2026-0380" until 2027-06-30 note "no remarks"`, `inspect shade-1 by "Plant health office" worker Ines 2 h`},
}, func(r *reader, s *inspect) fact.Effect {
	e := &fact.Inspect{Of: r.names(&s.Of)}
	for _, c := range s.Clauses {
		r.put(&e.By, "by", c.By)
		r.put(&e.Certificate, "certificate", c.Certificate)
		if given(c.Until) {
			r.once("until", e.Until != 0, *c.Until)
			e.Until = r.date(*c.Until)
		}
		r.extra(c.Common)
	}
	if e.Until != 0 {
		r.needs(e.Certificate, `until says how long a certificate is valid; name it: certificate "2026-0417"`)
	}
	return e
})
