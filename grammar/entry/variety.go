package entry

import (
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/syntax"
)

type variety struct {
	Name    name             `parser:"'variety' @@"`
	Clauses []*varietyClause `parser:"@@*"`
}

type varietyClause struct {
	Species   *name     `parser:"  'species' @@"`
	Seed      *ref      `parser:"| 'seed' @('monoembryonic' | 'polyembryonic')"`
	Parents   *parents  `parser:"| 'parents' @@"`
	Sport     *name     `parser:"| 'sport' 'of' @@"`
	Rootstock *ref      `parser:"| 'use' @'rootstock'"`
	Picks     []*months `parser:"| 'picks' @@ (',' @@)*"`
	Sold      *name     `parser:"| 'sold' 'as' @@"`
	Protected *ref      `parser:"| 'protected' 'until' @Date"`
	By        *ref      `parser:"| 'by' @Quoted"`
	Licence   *licence  `parser:"| 'licence' @@"`
	Common    *common   `parser:"| @@"`
}

// months is a month, or a run of them: May-Jun.
type months struct {
	Word ref `parser:"@Word"`
}

type parents struct {
	Seed   name `parser:"@@ ('x' | Cross)"`
	Pollen name `parser:"@@"`
}

type licence struct {
	Name   name `parser:"@@"`
	Plants *ref `parser:"('for' @Int)?"`
}

var varietyKind = kindOf(Kind{
	Summary: "a variety: a cultivar or a kind of rootstock",
	Text: `States at least a species, its parents or what it is a sport of. ` + "`seed`" + ` says how its seed breeds: every seedling of a monoembryonic variety ` +
		"is a plant of its own kind, most of a polyembryonic one are like the mother. `parents`" + ` names the seed parent first, then the pollen parent, with ` +
		"`x` or `×` between them; `unknown` is a parent nobody knows. `picks`" + ` are the months of harvest, which may run over the year's end. ` +
		"`protected until`, `by` and `licence … for 200`" + ` say until when, by what right and under which licence for how many plants it is propagated: what the law ` +
		`asks is for the holder of the right and the authority to say.`,
	Pattern: `variety Amberlight species "Eriobotrya japonica" seed monoembryonic picks May-Jun`,
	Samples: []string{
		`variety "Quince BA" species "Cydonia oblonga" use rootstock`,
		`variety Marrow species "Citrus reticulata" seed polyembryonic`,
		`variety Redwing parents Amberlight x unknown picks Nov-Feb, May`,
		`variety Emberlight sport of Amberlight sold as "Ember"`,
		`variety Latelight parents Amberlight × Redwing protected until 2041-12-31 by "plant variety right 2021/0417" licence "KH-3" for 200`,
	},
}, func(r *reader, s *variety) fact.Effect {
	e := &fact.Variety{Name: r.name(&s.Name)}
	for _, c := range s.Clauses {
		r.varietyClause(e, c)
	}
	r.needsAny(e.Species.Given() || e.SeedParent.Given() || e.SportOf.Given(),
		`a variety states its species, its parents or what it is a sport of: species "Eriobotrya japonica"`)
	return e
})

func (r *reader) varietyClause(e *fact.Variety, c *varietyClause) {
	r.put(&e.Species, "species", c.Species)
	r.put(&e.SportOf, "sport", c.Sport)
	r.put(&e.Trade, "sold as", c.Sold)
	r.putText(&e.Right, "by", c.By)
	switch {
	case c.Seed != nil:
		r.once("seed", e.Embryony != fact.UnknownEmbryony, *c.Seed)
		e.Embryony = fact.Monoembryonic
		if r.word(*c.Seed) == "polyembryonic" {
			e.Embryony = fact.Polyembryonic
		}
	case c.Parents != nil:
		r.put(&e.SeedParent, "parents", &c.Parents.Seed)
		r.put(&e.Pollen, "parents", &c.Parents.Pollen)
	case c.Rootstock != nil:
		r.once("use", e.Rootstock, *c.Rootstock)
		e.Rootstock = true
	case c.Picks != nil:
		r.once("picks", e.Picks != nil, c.Picks[0].Word)
		e.Picks = r.months(c.Picks)
	case c.Protected != nil:
		r.once("protected", e.Protected != 0, *c.Protected)
		e.Protected = r.date(*c.Protected)
	case c.Licence != nil:
		r.put(&e.Licence, "licence", &c.Licence.Name)
		r.putCount(&e.LicensedN, "for", c.Licence.Plants)
	}
	r.extra(c.Common)
}

// months reads harvest months: May, or May-Jun.
func (r *reader) months(list []*months) []fact.MonthRange {
	out := make([]fact.MonthRange, 0, len(list))
	for _, m := range list {
		t := m.Word
		text := syntax.Hyphens(r.raw(t))
		first, last, several := strings.Cut(text, "-")
		if !several {
			last = first
		}
		from, ok := monthNamed(first)
		to, ok2 := monthNamed(last)
		if !ok || !ok2 {
			r.errorf(r.span(t), "month", "%s is no month or run of months; write picks May-Jun, Oct", text)
			continue
		}
		out = append(out, fact.MonthRange{From: from, To: to})
	}
	return out
}
