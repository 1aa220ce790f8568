package report

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

var trace = &Report{
	Name:    "trace",
	Summary: "what came of a tree, lot or bundle, where it stands and who bought it: the list for a recall",
	Long: `Goes down from a mother tree, lot, limb, bundle, variety or supplier to everything that came of it by any step, as
scion, stock or interstock: what is on hand and where, and what was sold or given, to whom and when. With --from it
lists only what left on that day or later; what stands is listed all the same.

Stocks that were released from a graft that failed do not come from its scion; after a disease that travels with wood,
look at the lots they were released from as well.`,
	Example: "M7",
	Subject: OneThing,
	Takes:   Spans | Deep,
	Build:   buildTrace,
}

func buildTrace(n *nursery.Nursery, o Options) (*table.Doc, error) {
	s, err := subjectNamed(n, o.Name)
	if err != nil {
		return nil, err
	}
	d := nursery.NewDescent(n)
	roots := rootsOf(n, s)
	things := d.Descendants(roots...)
	concerned := map[nursery.Thing]bool{}
	for _, r := range roots {
		if r.Thing != nil {
			concerned[r.Thing] = true
		}
	}
	for _, t := range things {
		concerned[t] = true
	}
	doc := calendar(n, o, "trace", "What came of "+s.label())
	doc.Cautions = []string{"A list of where plants went is not a decision on what must be done: a disease or a pest that must be reported is a matter for the plant health authority."}
	w := newWalk(n, o.Depth)
	outline := table.Outline{Title: "Its descent"}
	for _, r := range roots {
		outline.Roots = append(outline.Roots, w.down(d, subject{source: r}, nil, 0))
	}
	hand := onHand(n, concerned)
	buyers := buyersOf(n, concerned, o.Period())
	doc.Body = []table.Block{buyers, hand, outline, w.nodeTable(), w.edgeTable()}
	doc.Notes = append(w.notes(), traceSums(hand, buyers, s)...)
	return doc, nil
}

// rootsOf are the things that a trace starts from: of a variety, every tree,
// lot and bundle of it that comes from nothing else in the journal.
func rootsOf(n *nursery.Nursery, s subject) []nursery.Source {
	if s.variety == nil {
		return []nursery.Source{s.source}
	}
	var roots []nursery.Source
	for t := range n.All() {
		if (subject{source: nursery.Source{Thing: t}}).identity().Variety == s.variety && !hasTopLink(n, t) {
			roots = append(roots, nursery.Source{Thing: t})
		}
	}
	return roots
}

// down draws a subject and what came of it.
func (w *walk) down(d *nursery.Descent, s subject, by *nursery.Child, depth int) table.Branch {
	branch := table.Branch{Label: s.label(), Detail: s.describe(w.n)}
	if by != nil {
		branch.Label = "as " + by.Step.String() + ": " + branch.Label
	}
	children := d.Children(s.source)
	if w.meet(s) {
		if len(children) > 0 {
			branch.Detail = "(see above)"
		}
		return branch
	}
	for i := range children {
		c := &children[i]
		child := subject{source: nursery.Source{Thing: c.Thing}}
		w.edges = append(w.edges, edge{s.id(), child.id(), w.linkTo(c, s.source)})
		if depth+1 >= w.depth {
			w.cut++
			continue
		}
		branch.Branches = append(branch.Branches, w.down(d, child, c, depth+1))
	}
	return branch
}

// linkTo is the link that a child has to its source.
func (w *walk) linkTo(c *nursery.Child, from nursery.Source) nursery.Link {
	for _, link := range w.n.Parents(c.Thing) {
		if link.From == from && link.Step == c.Step {
			return link
		}
	}
	return nursery.Link{From: from, Step: c.Step}
}

// onHand lists what stands of the things concerned.
func onHand(n *nursery.Nursery, concerned map[nursery.Thing]bool) table.Table {
	t := table.Table{Name: "on_hand", Title: "On hand", Columns: []table.Column{
		{Name: "what", Kind: table.KindText, Group: true},
		{Name: "variety", Kind: table.KindText},
		{Name: "state", Kind: table.KindText, Spare: 1},
		{Name: "place", Kind: table.KindText},
		{Name: "plants", Kind: table.KindCount},
	}}
	for _, l := range n.Lots {
		if !concerned[l] {
			continue
		}
		for s := fact.Waiting; s < fact.States; s++ {
			if l.On[s] > 0 {
				what := calledInState(l, s)
				if l.Limbs {
					what += ", limbs of " + l.Mother.Name
				}
				t.Add(table.Text(l.Name), table.Text(what), table.Text(s.String()), textOrUnknown(placeName(l.Place)), table.Count(l.On[s]))
			}
		}
	}
	for _, tree := range n.Trees {
		if concerned[tree] && tree.Standing() {
			t.Add(table.Text(tree.Name), table.Text(tree.Identity().String()), table.Text("tree"), textOrUnknown(placeName(tree.Place)), table.Count(1))
		}
	}
	for _, b := range n.Bundles {
		if left, known := b.Left(); concerned[b] && known && left > 0 {
			t.Add(table.Text(b.Name), table.Text((subject{source: nursery.Source{Thing: b}}).identity().String()), table.Text(b.Noun.String()), table.Unknown(), table.Count(left))
		}
	}
	return t
}

// buyersOf lists what was sold or given of the things concerned.
func buyersOf(n *nursery.Nursery, concerned map[nursery.Thing]bool, period Period) table.Table {
	t := table.Table{Name: "buyers", Title: "Sold and given", Columns: []table.Column{
		{Name: "party", Kind: table.KindText, Group: true},
		{Name: "date", Kind: table.KindDate},
		{Name: "what", Kind: table.KindText},
		{Name: "variety", Kind: table.KindText},
		{Name: "state", Kind: table.KindText, Spare: 2},
		{Name: "plants", Kind: table.KindCount},
		{Name: "paper", Kind: table.KindText, Spare: 1},
	}}
	type row struct {
		party, date, what, variety, state, paper string
		plants                                   int32
	}
	var rows []row
	for i := range n.Moves {
		m := &n.Moves[i]
		f, leaves := m.Entry.Effect.(*fact.Leave)
		if !leaves || m.From == nil || !concerned[m.From] || f.How != fact.Sold && f.How != fact.Given || !period.Contains(m.Entry.Date) {
			continue
		}
		rows = append(rows, row{f.To.Text, m.Entry.Day().String(), m.From.Name, calledInState(m.From, m.FromState), m.FromState.String(), f.Paper.Text, m.N})
	}
	for _, e := range n.Entries {
		f, leaves := e.Effect.(*fact.Leave)
		if !leaves || f.How != fact.Sold && f.How != fact.Given || !period.Contains(e.Date) {
			continue
		}
		thing, ok := n.Thing(f.Of.Text)
		if _, lot := thing.(*nursery.Lot); !ok || lot || !concerned[thing] || f.Noun == fact.Fruit {
			continue
		}
		s := subject{source: nursery.Source{Thing: thing}}
		rows = append(rows, row{f.To.Text, e.Day().String(), s.label(), s.identity().String(), s.kind(), f.Paper.Text, max(f.Count.N, 1)})
	}
	slices.SortStableFunc(rows, func(a, b row) int { return cmp.Or(strings.Compare(a.party, b.party), cmp.Compare(a.date, b.date)) })
	for _, r := range rows {
		t.Add(textOrUnknown(r.party), table.Date(r.date), table.Text(r.what), table.Text(r.variety), table.Text(r.state), table.Count(r.plants), textOrUnknown(r.paper))
	}
	return t
}

func traceSums(hand, buyers table.Table, s subject) []string {
	if len(hand.Rows) == 0 && len(buyers.Rows) == 0 {
		return []string{"Nothing on hand and nothing sold comes from " + s.label() + "."}
	}
	return []string{fmt.Sprintf("%d lines on hand, %d lines to telephone.", len(hand.Rows), len(buyers.Rows))}
}
