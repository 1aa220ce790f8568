package nursery

import (
	"fmt"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/source"
)

// declare takes in a standing fact.
func (n *Nursery) declare(e fact.Effect) {
	switch f := e.(type) {
	case *fact.Farm:
		n.farm(f)
	case *fact.Variety:
		n.declareVariety(f)
	case *fact.Tree:
		n.declareTree(f)
	case *fact.Limb:
		n.declareLimb(f)
	case *fact.Place:
		p := n.place(f.Name)
		if n.once(f.Name, "place", p.Fact != nil) {
			p.Fact = f
		}
	case *fact.Worker:
		w := n.worker(f.Name)
		w.Wages = append(w.Wages, n.now)
	case *fact.Party:
		p := n.party(f.Name)
		if n.once(f.Name, "party", p.Fact != nil) {
			p.Fact = f
		}
	case *fact.Method:
		m := n.method(f.Name)
		if n.once(f.Name, "method", m.Fact != nil) {
			m.Fact = f
			n.methodLimits(f)
		}
	case *fact.Cause:
		c := n.cause(f.Name)
		if n.once(f.Name, "cause", c.Fact != nil) {
			c.Fact = f
		}
	case *fact.Rate:
		n.Rates = append(n.Rates, n.now)
	case *fact.Limit:
		n.declareLimit(f)
	case *fact.Quote:
		n.variety(f.Of)
	}
}

// once refuses a declaration that stands a second time.
func (n *Nursery) once(name fact.Name, what string, already bool) bool {
	if already {
		n.refuse(name.Span, "declared-twice", fmt.Sprintf("the %s %s is declared already; keep one of the two", what, name.Text), name.Text)
	}
	return !already
}

func (n *Nursery) farm(f *fact.Farm) {
	if n.Farm != nil {
		n.refuse(n.now.Span, "declared-twice", "farm stands twice; a journal is of one farm")
		return
	}
	n.Farm = f
}

// methodLimits turns the days of a method into limits for it.
func (n *Nursery) methodLimits(f *fact.Method) {
	for name, q := range map[string]fact.Quantity{"first-check": f.Check, "stale-check": f.Stale} {
		if q.Given {
			n.declareLimit(&fact.Limit{Rule: fact.Name{Text: name, Span: f.Name.Span}, Value: q, For: f.Name})
		}
	}
}

func (n *Nursery) declareVariety(f *fact.Variety) {
	if old, taken := n.Variety(f.Name.Text); taken {
		fnd := n.refuse(f.Name.Span, "declared-twice", fmt.Sprintf("the variety %s is declared already; keep one of the two", f.Name.Text), old.Name)
		fnd.Related = []finding.Related{{File: old.Made.File, Span: old.Made.Span, Message: "first here"}}
		return
	}
	v := &Variety{Name: f.Name.Text, Made: n.now, Fact: f, Species: f.Species.Text, Embryony: f.Embryony}
	v.SeedParent = n.parent(f.SeedParent)
	v.Pollen = n.parent(f.Pollen)
	v.SportOf = n.parent(f.SportOf)
	if n.refused {
		return
	}
	for _, p := range []*Variety{v.SportOf, v.SeedParent, v.Pollen} {
		if v.Species == "" && p != nil {
			v.Species = p.Species
		}
	}
	if v.SportOf != nil && v.Embryony == fact.UnknownEmbryony {
		v.Embryony = v.SportOf.Embryony
	}
	keep(n.varieties, v.Name, v)
	n.Varieties = append(n.Varieties, v)
}

// parent finds a parent of a variety; the word unknown is none.
func (n *Nursery) parent(name fact.Name) *Variety {
	if !name.Given() || name.Text == "unknown" {
		return nil
	}
	v, _ := n.variety(name)
	return v
}

func (n *Nursery) declareTree(f *fact.Tree) {
	v, ok := n.variety(f.Variety)
	if !ok || !n.free(f.Name) {
		return
	}
	t := &Tree{Name: f.Name.Text, Made: n.now, Variety: v, Planted: f.Planted, Place: n.place(f.At), State: fact.Living}
	if t.Place == nil {
		t.Place = n.place(n.now.At())
	}
	if f.On.Given() {
		stock, ok := n.variety(f.On)
		if !ok {
			return
		}
		t.On = []Identity{{Variety: stock}}
	}
	if f.From.Given() {
		t.From = n.source(f.From)
	}
	n.addTree(t)
}

func (n *Nursery) addTree(t *Tree) {
	keep[Thing](n.things, t.Name, t)
	n.Trees = append(n.Trees, t)
	t.Entries = append(t.Entries, n.now)
}

// source is the thing of a name if there is one, else a party.
func (n *Nursery) source(name fact.Name) Source {
	if t, ok := n.Thing(name.Text); ok {
		n.touch(t)
		return Source{Thing: t}
	}
	return Source{Party: n.party(name)}
}

func (n *Nursery) declareLimb(f *fact.Limb) {
	tree, ok := n.tree(f.Of)
	if !ok || !n.stands(tree, f.Of.Span) || !n.free(f.Name) {
		return
	}
	v := tree.Variety
	if f.Variety.Given() {
		if v, ok = n.variety(f.Variety); !ok {
			return
		}
	}
	limb := &Limb{Name: f.Name.Text, Made: n.now, Tree: tree, Variety: v, Entries: []*fact.Entry{n.now}}
	tree.Limbs = append(tree.Limbs, limb)
	n.Limbs = append(n.Limbs, limb)
	keep[Thing](n.things, limb.Name, limb)
}

// stands refuses an entry about a tree that is gone, or not there yet.
func (n *Nursery) stands(t *Tree, at source.Span) bool {
	day := n.now.Day()
	switch {
	case t.Gone != 0 && day >= t.GoneDay:
		f := n.refuse(at, "tree-gone", fmt.Sprintf("%s was %s on %s and is not there any more", t.Name, t.Gone, t.GoneDay.Long()), t.Name)
		f.Related = []finding.Related{{File: t.GoneBy.File, Span: t.GoneBy.Span, Message: "here it went"}}
		return false
	case t.Planted.First != 0 && day != 0 && day < t.Planted.First:
		n.refuse(at, "tree-not-yet", fmt.Sprintf("%s was planted in %s, after this day; mend the day or the tree's planting", t.Name, planted(t.Planted)), t.Name)
		return false
	}
	return true
}

// planted writes when a tree was planted, as closely as it is known.
func planted(w fact.When) string {
	y, m, _ := w.First.Civil()
	switch {
	case w.Exact():
		return w.First.Long()
	case w.Last-w.First < 31:
		return fmt.Sprintf("%s %d", m, y)
	}
	return fmt.Sprint(y)
}
