package rule

import (
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
)

// A gauge reads one limit for very many things: what it has read for a variety
// and method it remembers until the journal declares limits anew.
type gauge struct {
	pass *pass
	name string
	read map[gaugeKey]gaugeValue
}

type gaugeKey struct {
	variety *nursery.Variety
	method  *nursery.Method
	turn    int // how many days of declared limits have passed
}

type gaugeValue struct {
	limit nursery.Limit
	known bool
}

// gauge makes a gauge for a limit.
func (p *pass) gauge(name string) *gauge {
	return &gauge{pass: p, name: name, read: map[gaugeKey]gaugeValue{}}
}

// of is the limit for a variety and a method, either of which may be nil, as it
// stood on a day. It reports false where nothing is known.
func (g *gauge) of(day fact.Date, v *nursery.Variety, m *nursery.Method) (nursery.Limit, bool) {
	turn, _ := slices.BinarySearch(g.pass.scan.turns, day+1)
	key := gaugeKey{v, m, turn}
	value, ok := g.read[key]
	if !ok {
		var names []string
		if m != nil {
			names = append(names, m.Name)
		}
		if v != nil {
			names = append(names, v.Name, v.Species)
		}
		value.limit, value.known = g.pass.Limit(g.name, day, names...)
		g.read[key] = value
	}
	return value.limit, value.known
}

// limitDays lists the days on which the journal declares limits, or methods,
// which have limits of their own.
func limitDays(n *nursery.Nursery) []fact.Date {
	var days []fact.Date
	for _, e := range n.Entries {
		switch e.Effect.(type) {
		case *fact.Limit, *fact.Method:
			days = append(days, e.Date)
		}
	}
	slices.Sort(days)
	return slices.Compact(days)
}
