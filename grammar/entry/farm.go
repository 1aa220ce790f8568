package entry

import (
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/syntax"
)

type farm struct {
	Name    name          `parser:"'farm' @@"`
	Clauses []*farmClause `parser:"@@*"`
}

type farmClause struct {
	Currency     *ref    `parser:"  'currency' @Word"`
	Season       *ref    `parser:"| 'season' 'from' @Word"`
	Country      *name   `parser:"| 'country' @@"`
	Registration *name   `parser:"| 'registration' @@"`
	Hemisphere   *ref    `parser:"| 'hemisphere' @('north' | 'south')"`
	Common       *common `parser:"| @@"`
}

var farmKind = kindOf(Kind{
	Summary: "the farm itself; it stands once in a journal",
	Text: "`currency` is the money meant where none is written, by its ISO 4217 code. `season from October` says when the growing year begins; it is named by " +
		"the year in which it ends, and without it the season is the calendar year. `country` (ISO 3166-1, three letters) and `registration`" + ` are printed on papers.`,
	Pattern: `farm "Kestrel Hollow" currency EUR season from October`,
	Samples: []string{`farm "Kestrel Hollow" hemisphere north note "the lower terraces only"`, `farm "Kestrel Hollow" currency AUD hemisphere south country AUS registration "NSW-0417"`},
}, func(r *reader, s *farm) fact.Effect {
	e := &fact.Farm{Name: r.name(&s.Name)}
	var hemisphere, season, money fact.Name
	for _, c := range s.Clauses {
		r.putWord(&money, "currency", c.Currency)
		r.putWord(&season, "season", c.Season)
		r.putWord(&hemisphere, "hemisphere", c.Hemisphere)
		r.put(&e.Country, "country", c.Country)
		r.put(&e.Registration, "registration", c.Registration)
		r.extra(c.Common)
	}
	e.South = strings.EqualFold(hemisphere.Text, "south")
	r.currency(e, money)
	r.season(e, season)
	r.country(e.Country)
	return e
})

func (r *reader) currency(e *fact.Farm, n fact.Name) {
	if !n.Given() {
		return
	}
	if !syntax.IsCurrency(n.Text) {
		r.errorf(n.Span, "currency", "%s is no currency; write the three capitals of ISO 4217, such as EUR or USD", n.Text)
	}
	e.Currency = n.Text
}

func (r *reader) season(e *fact.Farm, n fact.Name) {
	if !n.Given() {
		return
	}
	month, ok := monthNamed(n.Text)
	if !ok {
		r.errorf(n.Span, "month", "%s is no month; write season from October", n.Text)
	}
	e.SeasonFrom = month
}
