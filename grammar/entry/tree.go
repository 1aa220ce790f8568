package entry

import (
	"strconv"
	"time"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/syntax"
)

type tree struct {
	Name    name          `parser:"'tree' @@"`
	Clauses []*treeClause `parser:"@@*"`
}

type treeClause struct {
	Variety *name   `parser:"  'variety' @@"`
	On      *name   `parser:"| 'on' @@"`
	From    *name   `parser:"| 'from' @@"`
	Planted *ref    `parser:"| 'planted' @(Int | Month | Date)"`
	Common  *common `parser:"| @@"`
}

var treeKind = kindOf(Kind{
	Summary: "a tree that is followed on its own",
	Text: `A mother tree, a stock plant or an orchard tree that stood before the journal began or came from elsewhere; one that comes out of a lot is made by ` +
		"`plant`. `on`" + ` is the variety of its rootstock, ` + "`from`" + ` where it came from, ` + "`planted`" + ` a year, a month or a day.`,
	Pattern: `tree M7 variety Amberlight on "Quince BA" from "Valley Liners" planted 2013 at terrace-3`,
	Samples: []string{`tree F2 variety Firstfig planted 2009-11`},
}, func(r *reader, s *tree) fact.Effect {
	e := &fact.Tree{Name: r.name(&s.Name)}
	for _, c := range s.Clauses {
		r.put(&e.Variety, "variety", c.Variety)
		r.put(&e.On, "on", c.On)
		r.put(&e.From, "from", c.From)
		if c.Planted != nil {
			r.once("planted", e.Planted != fact.When{}, *c.Planted)
			e.Planted = r.when(*c.Planted)
		}
		r.extra(c.Common)
	}
	r.needs(e.Variety, "a tree is of a variety: variety Amberlight")
	if r.ext != nil {
		e.At = r.ext.At
	}
	return e
})

// when reads a date that may be known only to the month or year.
func (r *reader) when(t ref) fact.When {
	text := syntax.Hyphens(r.raw(t))
	switch r.toks[index(t)].Kind {
	case syntax.Date:
		return fact.On(r.date(t))
	case syntax.Month:
		y, _ := strconv.Atoi(text[:4])
		m, _ := strconv.Atoi(text[5:])
		if first, ok := fact.NewDate(y, time.Month(m), 1); ok {
			last, _ := fact.NewDate(y, time.Month(m), fact.DaysIn(y, time.Month(m)))
			return fact.When{First: first, Last: last}
		}
	default:
		y, _ := strconv.Atoi(text)
		first, ok := fact.NewDate(y, time.January, 1)
		if last, _ := fact.NewDate(y, time.December, 31); ok && len(text) == 4 {
			return fact.When{First: first, Last: last}
		}
	}
	r.errorf(r.span(t), "date", "%s is no date; write a year, a month or a day: 2013, 2013-05 or 2013-05-20", text)
	return fact.When{}
}

type limb struct {
	Name    name          `parser:"'limb' @@"`
	Of      name          `parser:"'of' @@"`
	Clauses []*limbClause `parser:"@@*"`
}

type limbClause struct {
	Variety *name   `parser:"  'variety' @@"`
	Common  *common `parser:"| @@"`
}

var limbKind = kindOf(Kind{
	Summary: "a limb of a tree that has a name of its own",
	Text:    `Wood, layers and fruit can come from it. With ` + "`variety`" + ` it is a sport, or a top of another variety.`,
	Pattern: `limb M8/east of M8 variety Emberlight`,
	Samples: []string{`limb M8/low of M8 note "kept for layers"`},
}, func(r *reader, s *limb) fact.Effect {
	e := &fact.Limb{Name: r.name(&s.Name), Of: r.name(&s.Of)}
	for _, c := range s.Clauses {
		r.put(&e.Variety, "variety", c.Variety)
		r.extra(c.Common)
	}
	return e
})
