package report

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	spelling "github.com/budstick/budstick/grammar/name"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

// A subject is what can stand in a line of descent: a lot, tree, limb or
// bundle, a party or a variety.
type subject struct{ nursery.Source }

func of(t nursery.Thing) subject { return subject{nursery.Source{Thing: t}} }

// subjectNamed finds what a grower names; a thing goes before a variety of its
// name, and that before a party.
func subjectNamed(n *nursery.Nursery, name string) (subject, error) {
	if t, ok := n.Thing(name); ok {
		return of(t), nil
	}
	if v, ok := n.Variety(name); ok {
		return subject{nursery.Source{Variety: v}}, nil
	}
	if p, ok := n.Party(name); ok {
		return subject{nursery.Source{Party: p}}, nil
	}
	return subject{}, fmt.Errorf("%s is no lot, tree, limb, bundle, variety or party of this journal%s", name, meantThing(n, name))
}

// meantThing suggests a name that is near one that nothing has.
func meantThing(n *nursery.Nursery, name string) string {
	var among []string
	for t := range n.All() {
		among = append(among, t.Label())
	}
	for _, v := range n.Varieties {
		among = append(among, v.Name)
	}
	for _, p := range n.Parties {
		among = append(among, p.Name)
	}
	slices.Sort(among)
	if meant, ok := spelling.Suggest(name, among); ok {
		return "; did you mean " + meant + "?"
	}
	return ""
}

// id tells subjects apart, whatever they are called: things share one
// namespace, varieties and parties have their own.
func (s subject) id() string {
	switch kind := s.kind(); {
	case s.Thing == nil:
		return kind + ":" + s.Label()
	case strings.HasPrefix(s.Label(), "variety:"), strings.HasPrefix(s.Label(), "party:"):
		return kind + ":" + s.Label()
	}
	return s.Label()
}

// kind is what a subject is, in a word.
func (s subject) kind() string {
	switch t := s.Thing.(type) {
	case *nursery.Tree:
		return "tree"
	case *nursery.Limb:
		return "limb"
	case *nursery.Bundle:
		if t.Noun == fact.Seed {
			return "seed"
		}
		return "wood"
	case *nursery.Lot:
		if t.Limbs {
			return "limbs"
		}
		return "lot"
	}
	if s.Variety != nil {
		return "variety"
	}
	return "party"
}

// day is when a subject began, as closely as that is known: a day, a month, a
// year, or nothing.
func (s subject) day() string {
	switch t := s.Thing.(type) {
	case *nursery.Tree:
		return whenText(t.Planted)
	case *nursery.Lot:
		return t.Made.Day().String()
	case *nursery.Bundle:
		return t.Day.String()
	case *nursery.Limb:
		return t.Made.Day().String()
	}
	return ""
}

// whenText writes a date that may be known only to the month or the year.
func whenText(w fact.When) string {
	year, month, _ := w.First.Civil()
	switch {
	case w.First == 0:
		return ""
	case w.Exact():
		return w.First.String()
	case w.Last-w.First < 31:
		return fmt.Sprintf("%d-%02d", year, month)
	}
	return strconv.Itoa(year)
}

// identity is what a subject is at its top.
func (s subject) identity() nursery.Identity {
	if s.Thing != nil {
		return nursery.IdentityOf(s.Thing)
	}
	return nursery.Identity{Variety: s.Variety}
}

// called is the subject's identity in words, or nothing.
func (s subject) called() string {
	switch id := s.identity(); {
	case id.Variety == nil:
		return ""
	case s.kind() == "seed":
		return "seed of " + id.Variety.Name
	default:
		return id.String()
	}
}

// describe says in a few words what a subject is and how, when and by whom it
// was made.
func (s subject) describe() string {
	switch t := s.Thing.(type) {
	case *nursery.Lot:
		return commaed(s.called(), t.How.String()+" "+t.Made.Day().String()+byMethod(t.Made), nursery.Crew(t.Made))
	case *nursery.Bundle:
		how := "cut"
		if _, bought := t.Made.Effect.(*fact.Begin); bought {
			how = "bought"
		}
		return commaed(s.called(), t.Noun.String()+" "+how+" "+t.Day.String(), nursery.Crew(t.Made))
	case *nursery.Tree:
		planted, gone := s.day(), ""
		if planted != "" {
			planted = "planted " + planted
		}
		if t.Gone != 0 {
			gone = t.Gone.String() + " " + t.GoneDay.String()
		}
		return commaed(s.called(), planted, nursery.Crew(t.Made), gone)
	case *nursery.Limb:
		return commaed(s.called(), "a limb of "+t.Tree.Name)
	}
	if s.Variety != nil {
		return commaed("variety", s.Variety.Species)
	}
	return "outside the farm"
}

// commaed puts a comma between those of some phrases that say something.
func commaed(phrases ...string) string {
	return strings.Join(slices.DeleteFunc(phrases, func(s string) bool { return s == "" }), ", ")
}

// method is the method that an entry names, or nothing.
func method(e *fact.Entry) string {
	switch f := e.Effect.(type) {
	case *fact.Graft:
		return f.By.Text
	case *fact.Begin:
		return f.By.Text
	case *fact.Layer:
		return f.By.Text
	}
	return ""
}

func byMethod(e *fact.Entry) string {
	if by := method(e); by != "" {
		return " by " + by
	}
	return ""
}

// trailEnds says why the record of where a subject came from ends with it, or
// nothing where it goes on to another thing or party.
func trailEnds(n *nursery.Nursery, s subject) string {
	for _, l := range n.Parents(s.Source) {
		if !l.Late && (l.From.Variety == nil || s.Variety != nil) {
			return ""
		}
	}
	switch {
	case s.Variety != nil:
		return "no parents are declared"
	case s.Party != nil:
		return "the papers of this party go on from here"
	case s.kind() == "tree":
		return "the record begins here: the tree was declared"
	}
	return "the record begins here: " + s.Thing.Origin().Verb + " names no source"
}

// mostUnions is how many unions of one plant are told.
const mostUnions = 8

// standsOn writes what a graft stands on, from the union down.
func standsOn(t nursery.Thing) table.Cell {
	var below []nursery.Identity
	mixed := false
	switch t := t.(type) {
	case *nursery.Lot:
		below, mixed = t.Below, t.MixedBelow
	case *nursery.Tree:
		below = t.On
	}
	if len(below) == 0 {
		return table.Unknown()
	}
	names := make([]string, 0, mostUnions)
	for i, id := range below {
		if i == mostUnions-1 && len(below) > mostUnions {
			names = append(names, fmt.Sprintf("%d more", len(below)-i))
			break
		}
		names = append(names, id.String())
	}
	on := table.Text(strings.Join(names, ", on "))
	if mixed {
		on = on.With(table.Mixed)
	}
	return on
}
