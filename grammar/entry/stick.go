package entry

import "github.com/budstick/budstick/grammar/fact"

type stick struct {
	Count   count          `parser:"'stick' @@ 'cuttings'"`
	Of      name           `parser:"'of' @@"`
	Clauses []*rootsClause `parser:"@@*"`
}

// rootsClause is a clause of what is set to root: cuttings and layers.
type rootsClause struct {
	As      *name    `parser:"  'as' @@"`
	By      *name    `parser:"| 'by' @@"`
	Hormone *hormone `parser:"| 'hormone' @@"`
	Wound   *measure `parser:"| 'wound' @@"`
	Common  *common  `parser:"| @@"`
}

type hormone struct {
	Name     name     `parser:"@@"`
	Strength *measure `parser:"@@?"`
}

var stickKind = kindOf(Kind{
	Summary: "cuttings are set to root and a lot begins",
	Text: `Makes a lot in which every cutting waits. ` + "`of`" + ` names what they were taken from: a tree, a bundle of wood, or only a variety. ` +
		"`hormone`" + ` says what they were dipped in and how strong it was, ` + "`wound`" + ` how long a cut was made in the bark.`,
	Pattern: `stick 50 cuttings of F2 as FC26`,
	Samples: []string{`stick 30 cuttings of "Quince BA" as QC26 by hardwood`, `stick 40 cuttings of WF3 as FC27 hormone IBA 2000 ppm wound 20 mm at mist-1`},
}, func(r *reader, s *stick) fact.Effect {
	e := &fact.Begin{How: fact.Stuck, Noun: fact.Cuttings, Count: r.count(&s.Count), Of: r.name(&s.Of)}
	for _, c := range s.Clauses {
		r.rootsClause(c, &e.As, &e.Rooting)
	}
	r.needs(e.As, "cuttings need a name for the lot they make: as FC26")
	return e
})

func (r *reader) rootsClause(c *rootsClause, as *fact.Name, roots *fact.Rooting) {
	r.put(as, "as", c.As)
	r.put(&roots.By, "by", c.By)
	if c.Hormone != nil {
		r.put(&roots.Hormone, "hormone", &c.Hormone.Name)
		r.putMeasure(&roots.Strength, "hormone", c.Hormone.Strength, "the strength of a hormone", fact.PartsPerM, fact.Percent)
	}
	r.putMeasure(&roots.Wound, "wound", c.Wound, "a wound", calipers...)
	r.extra(c.Common)
}
