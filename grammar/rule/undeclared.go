package rule

import (
	"maps"
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	spelling "github.com/budstick/budstick/grammar/name"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/grammar/syntax"
)

var undeclared = &Rule{
	Name: "undeclared", Severity: finding.Hint,
	Summary: "a place, party, person, method or cause is used and was never declared",
	Why: "It lives from its first use and all works. But only what is declared can be told from a slip of the pen: once your people and places are stated at the " +
		"top, a misspelled one shows. Said once for each name.",
	Bad:  kestrel + "move QB25 to shade-7\n",
	Good: kestrel + "place shade-7\nmove QB25 to shade-7\n",
	check: func(p *pass) {
		for _, list := range p.usedNames() {
			var known []string
			for _, u := range list.names {
				if u.declared {
					known = append(known, u.name)
				}
			}
			for _, u := range list.names {
				if u.declared || list.known(u.name) {
					continue
				}
				hint := ""
				if len(known) < manyNames {
					if near, ok := spelling.Suggest(u.name, known); ok {
						if spelling.Near(u.name, near) {
							continue // look-alike says so
						}
						hint = ", or did you mean " + near + "?"
					}
				}
				if near, ok := spelling.Suggest(u.name, list.trade); ok && hint == "" {
					hint = ", or did you mean " + near + "?"
				}
				p.reportf(u.by, spanOf(u.by, u.name), []string{u.name}, "%s is used here for the first time and not declared; write it above: %s %s%s", u.name, list.word, syntax.Spell(u.name), hint)
			}
		}
	},
}

// manyNames are too many to look for the one that was meant, each time.
const manyNames = 2000

// usedNames are the names of one kind that live from their first use.
type usedNames struct {
	word  string // that declares one
	names []usedName
	known func(name string) bool // needs no declaration
	trade []string               // names that the tool knows
}

type usedName struct {
	name     string
	by       *fact.Entry
	declared bool
}

func (p *pass) usedNames() []usedNames {
	never := func(string) bool { return false }
	places := usedNames{word: "place", known: never}
	for _, u := range p.Places {
		places.names = append(places.names, usedName{u.Name, u.Used, u.Fact != nil})
	}
	parties := usedNames{word: "party", known: never}
	for _, u := range p.Parties {
		parties.names = append(parties.names, usedName{u.Name, u.Used, u.Fact != nil})
	}
	people := usedNames{word: "worker", known: never}
	for _, u := range p.Workers {
		people.names = append(people.names, usedName{u.Name, u.Used, len(u.Wages) > 0})
	}
	methods := usedNames{word: "method", known: func(name string) bool {
		_, ok := nursery.TradeMethods()[spelling.Fold(name)]
		return ok
	}, trade: slices.Sorted(maps.Keys(nursery.TradeMethods()))}
	for _, u := range p.Methods {
		methods.names = append(methods.names, usedName{u.Name, u.Used, u.Fact != nil})
	}
	causes := usedNames{word: "cause", known: never}
	for _, u := range p.Causes {
		causes.names = append(causes.names, usedName{u.Name, u.Used, u.Fact != nil})
	}
	return []usedNames{places, parties, people, methods, causes}
}
