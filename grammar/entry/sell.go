package entry

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
)

// goods is what leaves: plants, wood or fruit of something, or all of it.
type goods struct {
	Some  *some `parser:"  @@"`
	Whole *name `parser:"| @@"`
}

type some struct {
	About *ref   `parser:"@'about'?"`
	N     ref    `parser:"@(Int | Decimal)"`
	Unit  *ref   `parser:"( @Unit 'fruit'"`
	Noun  *ref   `parser:"| @('fruit' | 'scions')"`
	State *state `parser:"| @@ )?"`
	Of    name   `parser:"'of' @@"`
}

type sell struct {
	Goods   goods         `parser:"'sell' @@"`
	Clauses []*sellClause `parser:"@@*"`
}

type sellClause struct {
	To     *name    `parser:"  'to' @@"`
	At     *atPrice `parser:"| 'at' @@"`
	For    *money   `parser:"| 'for' @@"`
	Paper  *name    `parser:"| 'paper' @@"`
	Remark *remark  `parser:"| @@"`
}

// atPrice is a price where a number follows at, else a place.
type atPrice struct {
	Each  *each `parser:"  @@"`
	Place *name `parser:"| @@"`
}

// each is a price for one, or for one unit.
type each struct {
	Money money `parser:"@@"`
	Each  *ref  `parser:"( @'each'"`
	Per   *ref  `parser:"| 'per' @Unit )"`
}

var sellKind = kindOf(Kind{
	Summary: "plants, fruit or wood are sold",
	Text: "`at 19.00 each`" + ` or ` + "`at 3.20 per kg`" + ` is the price of one, ` + "`for 228.00`" + ` the price of all; where both stand they must agree. ` +
		`Without a number the whole lot is sold, or that tree. ` + "`sell 3 failed of AM26`" + ` sells plain stocks. ` +
		"`at`" + ` before a name is a place, and ` + "`paper`" + ` names the invoice or delivery note.`,
	Pattern: `sell 12 of AM26 to "Harbour Street market" at 19.00 each`,
	Samples: []string{
		`sell 3 failed of AM26 to Bob for 12.00`,
		`sell RT26 to Bob for 10.00 USD paper "note 2026-14"`,
		`sell 20 kg fruit of M7 to "Harbour Street market" at 3.20 per kg for 64.00 at stall-4`,
		`sell 10 scions of W7 to Bob at 0.50 each`,
		`sell 30 fruit of M7 to Bob at 0.40 each`,
	},
}, func(r *reader, s *sell) fact.Effect {
	e := &fact.Leave{How: fact.Sold}
	r.goods(e, &s.Goods, "what is sold")
	for _, c := range s.Clauses {
		r.put(&e.To, "to", c.To)
		r.putMoney(&e.Price.Total, "for", c.For)
		r.put(&e.Paper, "paper", c.Paper)
		r.atPrice(e, c.At)
		r.remark(c.Remark)
	}
	return e
})

func (r *reader) atPrice(e *fact.Leave, a *atPrice) {
	switch {
	case a == nil:
	case a.Place != nil:
		r.at(a.Place)
	default:
		r.putMoney(&e.Price.Each, "at", &a.Each.Money)
		if given(a.Each.Per) {
			e.Price.Per = r.unit(*a.Each.Per)
		}
		r.priced(e, a.Each)
	}
}

// priced checks that a price is per a unit of what is sold.
func (r *reader) priced(e *fact.Leave, p *each) {
	switch {
	case !given(p.Per):
		if e.Quantity.Given {
			r.errorf(r.span(*p.Each), "price", "fruit by weight is priced by weight: at 3.20 per %s", e.Quantity.Unit)
		}
	case !e.Quantity.Given:
		r.report(finding.Finding{
			Span: r.span(*p.Per), Severity: finding.Error, Rule: "price",
			Message: "what is counted is priced each: at 19.00 each",
		})
	case e.Price.Per != e.Quantity.Unit:
		r.errorf(r.span(*p.Per), "price", "the fruit is weighed in %s, so the price must be per %s", e.Quantity.Unit, e.Quantity.Unit)
	}
}

type give struct {
	Goods   goods         `parser:"'give' @@"`
	Clauses []*giveClause `parser:"@@*"`
}

type giveClause struct {
	To      *name   `parser:"  'to' @@"`
	Because *ref    `parser:"| 'because' @Quoted"`
	Paper   *name   `parser:"| 'paper' @@"`
	Common  *common `parser:"| @@"`
}

var giveKind = kindOf(Kind{
	Summary: "plants, fruit or wood are given away",
	Text:    `As ` + "`sell`" + `, without money.`,
	Pattern: `give 2 of AM26 to Bob`,
	Samples: []string{
		`give 5 kg fruit of M7 to "village school" because "harvest feast"`,
		`give RT26 to Bob`,
	},
}, func(r *reader, s *give) fact.Effect {
	e := &fact.Leave{How: fact.Given}
	r.goods(e, &s.Goods, "what is given")
	for _, c := range s.Clauses {
		r.put(&e.To, "to", c.To)
		r.putText(&e.Why, "because", c.Because)
		r.put(&e.Paper, "paper", c.Paper)
		r.extra(c.Common)
	}
	return e
})

// goods fills in what leaves. Where it must be exact, what says of what.
func (r *reader) goods(e *fact.Leave, g *goods, what string) {
	if g.Whole != nil {
		e.Of = r.name(g.Whole)
		return
	}
	s := g.Some
	e.Of, e.State = r.name(&s.Of), r.state(s.State)
	switch {
	case given(s.Unit):
		e.Noun = fact.Fruit
		e.Quantity = r.oneOf(r.measure(&measure{s.N, *s.Unit}), "fruit", weights...)
		e.Quantity.About = given(s.About)
	default:
		e.Count = r.whole(s.N)
		e.Count.About = given(s.About)
		if given(s.Noun) {
			e.Noun = fact.Scions
			if r.word(*s.Noun) == "fruit" {
				e.Noun = fact.Fruit
			}
		}
	}
	if given(s.About) && what != "" {
		r.errorf(r.span(*s.About), "about", "%s must be exact; leave out about", what)
	}
}

// weights are the units in which fruit is weighed.
var weights = []fact.Unit{fact.Kilogram, fact.Gram, fact.Pound, fact.Ounce}
