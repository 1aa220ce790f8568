package report

import (
	"fmt"
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	spelling "github.com/budstick/budstick/grammar/name"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

// A walk follows links up or down from a subject. It draws each thing once, and
// points back to it where it is met again, so that what it writes grows with
// the number of things and not of paths.
type walk struct {
	n     *nursery.Nursery
	depth int
	seen  map[string]bool
	nodes []subject
	edges []edge
	cut   int // things that were not drawn, being too deep
}

// An edge leads from what something came from to what came of it.
type edge struct {
	from, to string
	link     nursery.Link
}

func newWalk(n *nursery.Nursery, depth int) *walk {
	if depth == 0 {
		depth = defaultDepth
	}
	return &walk{n: n, depth: depth, seen: map[string]bool{}}
}

func (w *walk) meet(s subject) (again bool) {
	id := s.id()
	if again = w.seen[id]; !again {
		w.seen[id] = true
		w.nodes = append(w.nodes, s)
	}
	return again
}

// up draws a subject and what it came from.
func (w *walk) up(s subject, depth int) table.Branch {
	branch := table.Branch{Label: s.label(), Detail: s.describe(w.n)}
	links := parentsOf(w.n, s)
	if w.meet(s) {
		if len(links) > 0 {
			branch.Detail = "(see above)"
		}
		return branch
	}
	if len(links) == 0 {
		branch.Branches = append(branch.Branches, table.Branch{Label: recordEnds(s)})
		return branch
	}
	for _, link := range links {
		from := subject{source: link.source, variety: link.variety}
		w.edges = append(w.edges, edge{from.id(), s.id(), link.Link})
		if depth+1 >= w.depth {
			w.cut++
			continue
		}
		child := w.up(from, depth+1)
		child.Label = stepWord(link.Link) + ": " + child.Label
		branch.Branches = append(branch.Branches, child)
	}
	return branch
}

// recordEnds says why nothing stands above a subject.
func recordEnds(s subject) string {
	switch t := s.source.Thing.(type) {
	case *nursery.Tree:
		return "the record ends here: the tree was declared, not made in this journal"
	case *nursery.Lot, *nursery.Bundle:
		return "the record ends here: " + t.Origin().Verb + " names no source"
	}
	if s.variety != nil {
		return "no parents are declared"
	}
	return "the record ends here: ask the supplier's papers"
}

// parentLink is a link to a thing, a party or a variety.
type parentLink struct {
	nursery.Link
	source  nursery.Source
	variety *nursery.Variety
}

// parentsOf are what a subject came from. A declared tree, and a sowing of no
// known mother, go back to their variety, and a variety to its parents.
func parentsOf(n *nursery.Nursery, s subject) []parentLink {
	if s.variety != nil {
		return varietyParents(s.variety)
	}
	if s.source.Thing == nil {
		return nil
	}
	var out []parentLink
	for _, link := range n.Parents(s.source.Thing) {
		out = append(out, parentLink{Link: link, source: link.From})
	}
	if v := s.identity().Variety; v != nil && len(varietyParents(v)) > 0 && !hasTopLink(n, s.source.Thing) {
		out = append(out, parentLink{Link: nursery.Link{Step: nursery.Kept}, variety: v})
	}
	return out
}

func hasTopLink(n *nursery.Nursery, t nursery.Thing) bool {
	_, ok := topLink(n, t)
	return ok
}

func varietyParents(v *nursery.Variety) []parentLink {
	var out []parentLink
	if v.SportOf != nil {
		out = append(out, parentLink{Link: nursery.Link{Step: nursery.LimbOf, Entry: v.Made}, variety: v.SportOf})
	}
	for _, parent := range []*nursery.Variety{v.SeedParent, v.Pollen} {
		if parent != nil {
			out = append(out, parentLink{Link: nursery.Link{Step: nursery.Seedling, Entry: v.Made}, variety: parent})
		}
	}
	return out
}

// stepWord says how something came from its source.
func stepWord(l nursery.Link) string {
	word := l.Step.String()
	if l.OneOf {
		word += ", one of"
	}
	return word
}

// describe says in a few words what a subject is and how it was made.
func (s subject) describe(n *nursery.Nursery) string {
	switch t := s.source.Thing.(type) {
	case *nursery.Lot:
		out := t.Top.String() + ", " + t.How.String() + " " + t.Made.Day().String()
		if g, ok := t.Made.Effect.(*fact.Graft); ok && g.By.Given() {
			out += " by " + g.By.Text
		}
		if who := t.Made.Workers(); len(who) > 0 && t.Batch != nil && t.Batch.Lot == t {
			out += ", " + t.Batch.Crew()
		}
		return out
	case *nursery.Tree:
		out := t.Identity().String()
		if day := s.day(); day != "" {
			out += ", planted " + day
		}
		if t.Gone != 0 {
			out += fmt.Sprintf(", %s %s", t.Gone, t.GoneDay)
		}
		return out
	case *nursery.Bundle:
		return s.identity().String() + ", " + s.kind() + " of " + t.Day.String()
	case *nursery.Limb:
		return nursery.Identity{Variety: t.Variety}.String() + ", a limb of " + t.Tree.Name
	}
	if s.variety != nil {
		return "variety"
	}
	return "outside the farm"
}

func (w *walk) nodeTable() table.Table {
	t := table.Table{Name: "nodes", Title: "Things", Columns: []table.Column{
		{Name: "id", Kind: table.KindText}, {Name: "kind", Kind: table.KindText},
		{Name: "label", Kind: table.KindText}, {Name: "date", Kind: table.KindText},
	}}
	for _, s := range w.nodes {
		t.Add(table.Text(s.id()), table.Text(s.kind()), table.Text(s.label()), textOrUnknown(s.day()))
	}
	return t
}

func (w *walk) edgeTable() table.Table {
	t := table.Table{Name: "edges", Title: "Steps", Columns: []table.Column{
		{Name: "from", Kind: table.KindText}, {Name: "to", Kind: table.KindText}, {Name: "how", Kind: table.KindText},
		{Name: "date", Kind: table.KindDate}, {Name: "count", Kind: table.KindCount},
	}}
	for _, e := range w.edges {
		date, count := table.Unknown(), table.Unknown()
		if e.link.Entry != nil && e.link.Entry.Day() != 0 {
			date = table.Date(e.link.Entry.Day().String())
		}
		if e.link.Count > 0 {
			count = table.Count(e.link.Count)
		}
		if e.link.OneOf {
			count = count.With(table.Mark{Name: "one_of", Note: "one of: each plant came from one of several such sources"})
		}
		t.Add(table.Text(e.from), table.Text(e.to), table.Text(e.link.Step.String()), date, count)
	}
	return t
}

func (w *walk) notes() []string {
	if w.cut == 0 {
		return nil
	}
	return []string{fmt.Sprintf("Drawn to a depth of %d; %d lines go on further (--depth).", w.depth, w.cut)}
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
	slices.Sort(among)
	if meant, ok := spelling.Suggest(name, among); ok {
		return "; did you mean " + meant + "?"
	}
	return ""
}
