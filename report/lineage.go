package report

import (
	"fmt"
	"strings"

	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

var lineage = &Report{
	Name:    "lineage",
	Summary: "what a tree, lot or bundle is and where it came from, as far as the record goes",
	Long: `Goes up from a lot, tree, limb, bundle or variety: through every graft, layer, cutting, seed and purchase to where the
record begins. Scion and stock have lines of their own, and an interstock between them; limbs of a tree that were worked
over, and new roots that it got, are lines of the tree. Where lots were joined, each plant is one of several, and that is
said. A stock that was worked again also goes back to the graft that failed on it.

A graft, a layer and a cutting are the same genotype as what they came from; a seedling is a new one, save a nucellar
seedling, which is most likely a clone of its mother. Generations of cloning are counted along the scion line, since the
last seed; trace with --clones lists what is of the genotype of a plant.

What is in the lineage of a thing is exactly what has that thing in its trace.`,
	Example: "M53 --depth 4",
	Subject: OneThing,
	Takes:   Deep,
	Build:   buildLineage,
}

func buildLineage(n *nursery.Nursery, o Options) (*table.Doc, error) {
	s, err := subjectNamed(n, o.Name)
	if err != nil {
		return nil, err
	}
	title := "Where " + s.Label() + " comes from"
	doc := heading(n, o, "lineage", title, table.NoBasis)
	d := descentDrawing{n: n, reach: n.Up(s.Source), up: true, options: o}
	doc.Body = append([]table.Block{subjectFacts(n, s)}, d.blocks(s, title)...)
	doc.Notes = d.notes
	return doc, nil
}

// subjectFacts are what a subject is, in a few lines.
func subjectFacts(n *nursery.Nursery, s subject) table.Facts {
	f := table.Facts{Name: "subject", Title: "What it is", Items: []table.Fact{
		{Name: "name", Value: table.Text(s.Label())},
		{Name: "kind", Value: table.Text(s.kind())},
	}}
	add := func(name, heading string, v table.Cell) {
		f.Items = append(f.Items, table.Fact{Name: name, Heading: heading, Value: v})
	}
	if id := s.identity(); id.Variety != nil {
		if s.Variety == nil {
			variety := table.Text(s.called())
			if id.Nucellar() {
				variety = variety.With(nucellarMark)
			}
			add("variety", "", variety)
		}
		add("species", "", textOrUnknown(id.Species()))
	}
	if s.Thing == nil {
		return f
	}
	if on := standsOn(s.Thing); on.Known() {
		add("on", "stands on", on)
	}
	if tops := severalTops(s.Thing); tops != "" {
		add("tops", "several tops", table.Text(tops))
	}
	c := cloningOf(n, s.Thing)
	add("generations", "generations of cloning", table.Count(c.most))
	if c.least != c.most {
		add("generations_least", "or no more than", table.Count(c.least))
	}
	add("since", "counted since", table.Text(c.text()))
	if founders, sure := foundersOf(n, s.Thing); len(founders) > 1 || founders[0] != s.Thing {
		names := make([]string, len(founders))
		for i, t := range founders {
			names[i] = t.Label()
		}
		same := table.Text(strings.Join(names, " or "))
		if !sure {
			same = same.With(nucellarMark)
		}
		add("genotype", "same genotype as", same)
	}
	return f
}

var nucellarMark = table.Mark{Name: "nucellar", Note: "nucellar: of polyembryonic seed, so most likely a clone of its mother, but some are not"}

// severalTops lists the tops of what carries more than one, or is empty.
func severalTops(t nursery.Thing) string {
	var tops []string
	switch t := t.(type) {
	case *nursery.Tree:
		tops = append(tops, t.Identity().String())
		for _, l := range t.Tops {
			tops = append(tops, fmt.Sprintf("%s (%s)", l.Top, l.Name))
		}
		for _, l := range t.Limbs {
			tops = append(tops, fmt.Sprintf("%s (%s)", nursery.IdentityOf(l), l.Name))
		}
	case *nursery.Lot:
		tops = append(tops, t.Top.String())
		if t.Beside && len(t.Below) > 0 {
			tops = append(tops, t.Below[0].String()+", which was left beside it")
		}
	}
	if len(tops) < 2 {
		return ""
	}
	return strings.Join(tops, "; ")
}
