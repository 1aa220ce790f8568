package report

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

var lineage = &Report{
	Name:    "lineage",
	Summary: "what a tree, lot or bundle is and where it came from, as far as the record goes",
	Long: `Goes up from a lot, tree, limb, bundle or variety: through every graft, layer, cutting, seed and purchase to where the
record ends. Scion line and stock line stand apart, and an interstock between them. Where lots were joined, each plant
is one of several, and that is said.

A graft, a layer and a cutting are the same genotype as what they came from; a seedling is a new one, save a nucellar
seedling, which is most likely a clone of its mother. Generations of cloning are counted along the scion line, since the
last seed.`,
	Example: "M41",
	Subject: OneThing,
	Takes:   Deep,
	Build:   buildLineage,
}

// defaultDepth is how many steps a lineage or trace is drawn, if nobody asks for
// another number.
const defaultDepth = 12

func buildLineage(n *nursery.Nursery, o Options) (*table.Doc, error) {
	subject, err := subjectNamed(n, o.Name)
	if err != nil {
		return nil, err
	}
	w := newWalk(n, o.Depth)
	root := w.up(subject, 0)
	doc := heading(n, o, "lineage", "Where "+subject.label()+" comes from", table.NoBasis)
	doc.Body = []table.Block{subject.facts(n), table.Outline{Title: "Its line", Roots: []table.Branch{root}}, w.nodeTable(), w.edgeTable()}
	doc.Notes = append(w.notes(), lineageNotes(n, subject)...)
	return doc, nil
}

// subject is what a lineage or trace is asked of: a thing, or a variety.
type subject struct {
	source  nursery.Source
	variety *nursery.Variety
}

func subjectNamed(n *nursery.Nursery, name string) (subject, error) {
	if t, ok := n.Thing(name); ok {
		return subject{source: nursery.Source{Thing: t}}, nil
	}
	if v, ok := n.Variety(name); ok {
		return subject{variety: v}, nil
	}
	if p, ok := n.Party(name); ok {
		return subject{source: nursery.Source{Party: p}}, nil
	}
	return subject{}, fmt.Errorf("%s is no lot, tree, limb, bundle, variety or party of this journal%s", name, meantThing(n, name))
}

func (s subject) label() string {
	if s.variety != nil {
		return s.variety.Name
	}
	return s.source.Label()
}

// id tells nodes apart: things share one namespace, varieties and parties have
// their own.
func (s subject) id() string {
	switch {
	case s.variety != nil:
		return "variety:" + s.variety.Name
	case s.source.Thing == nil && s.source.Party != nil:
		return "party:" + s.source.Party.Name
	}
	return s.source.Label()
}

// kind is what a subject is, as the nodes table has it.
func (s subject) kind() string {
	if s.variety != nil {
		return "variety"
	}
	switch t := s.source.Thing.(type) {
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
	return "party"
}

// day is when a subject began, or no date.
func (s subject) day() string {
	switch t := s.source.Thing.(type) {
	case *nursery.Tree:
		if t.Planted.Exact() {
			return t.Planted.First.String()
		}
		if t.Planted.First != 0 {
			return strconv.Itoa(yearOf(t.Planted.First))
		}
	case *nursery.Lot:
		return t.Made.Day().String()
	case *nursery.Bundle:
		return t.Day.String()
	case *nursery.Limb:
		return t.Made.Day().String()
	}
	return ""
}

func yearOf(d fact.Date) int { y, _, _ := d.Civil(); return y }

// identity is what the subject's top is.
func (s subject) identity() nursery.Identity {
	switch t := s.source.Thing.(type) {
	case *nursery.Tree:
		return t.Identity()
	case *nursery.Lot:
		return t.Top
	case *nursery.Bundle:
		return nursery.Identity{Variety: t.Variety, Seedling: false}
	case *nursery.Limb:
		return nursery.Identity{Variety: t.Variety}
	}
	return nursery.Identity{Variety: s.variety}
}

// facts are what the subject is, in a few lines.
func (s subject) facts(n *nursery.Nursery) table.Facts {
	f := table.Facts{Name: "subject", Title: "What it is", Items: []table.Fact{
		{Name: "name", Value: table.Text(s.label())},
		{Name: "kind", Value: table.Text(s.kind())},
	}}
	add := func(name, heading string, v table.Cell) {
		f.Items = append(f.Items, table.Fact{Name: name, Heading: heading, Value: v})
	}
	if id := s.identity(); id.Variety != nil && s.variety == nil {
		variety := table.Text(id.String())
		if id.Nucellar() {
			variety = variety.With(table.Mark{Name: "nucellar", Note: "nucellar: of polyembryonic seed, so most likely a clone of its mother, but some are not"})
		}
		add("variety", "variety", variety)
		add("species", "species", textOrUnknown(id.Species()))
	}
	if below := standsOn(s.source.Thing); below != "" {
		add("on", "on", table.Text(below))
	}
	if steps, ends := s.generations(n); steps > 0 {
		add("generations", "generations of cloning", table.Count(steps))
		add("since", "counted since", table.Text(ends))
	}
	return f
}

// standsOn writes what a graft stands on, from the union down.
func standsOn(t nursery.Thing) string {
	var below []nursery.Identity
	switch t := t.(type) {
	case *nursery.Lot:
		below = t.Below
	case *nursery.Tree:
		below = t.On
	}
	names := make([]string, len(below))
	for i, id := range below {
		names[i] = id.String()
	}
	return strings.Join(names, ", on ")
}

// generations counts the vegetative steps along the scion line, and says what
// stands at its beginning.
func (s subject) generations(n *nursery.Nursery) (steps int, ends string) {
	at := s.source
	seen := map[nursery.Source]bool{}
	for at.Thing != nil && !seen[at] {
		seen[at] = true
		link, ok := topLink(n, at.Thing)
		if !ok {
			break
		}
		switch link.Step {
		case nursery.Scion, nursery.LayerOf, nursery.CuttingOf:
			steps++
		case nursery.Seedling:
			return steps, "the seed of " + link.From.Label()
		}
		at = link.From
	}
	if at.Thing == nil {
		return steps, "what came from " + at.Label()
	}
	return steps, at.Label() + ", where the record ends"
}

// topLink is the step that the top of a thing came by: the scion, the branch or
// the seed, never the stock. Of several that it is one of, the first stands for
// all.
func topLink(n *nursery.Nursery, t nursery.Thing) (nursery.Link, bool) {
	for _, link := range n.Parents(t) {
		switch link.Step {
		case nursery.StockOf, nursery.Interstock, nursery.RootsFrom:
			continue
		case nursery.LimbOf:
			if _, limb := t.(*nursery.Limb); !limb {
				continue
			}
		}
		return link, true
	}
	return nursery.Link{}, false
}

func lineageNotes(n *nursery.Nursery, s subject) []string {
	if tree, ok := s.source.Thing.(*nursery.Tree); ok && len(tree.Varieties()) > 1 {
		var tops []string
		for _, v := range tree.Varieties() {
			tops = append(tops, v.Name)
		}
		return []string{fmt.Sprintf("%s carries several tops: %s. Ask for a lot of limbs by its name to see where that top came from.", tree.Name, strings.Join(tops, ", "))}
	}
	return nil
}
