package nursery

import (
	"fmt"
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	spelling "github.com/budstick/budstick/grammar/name"
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
		if v, ok := n.variety(f.Of); ok {
			v.quotes = append(v.quotes, n.now)
		}
	}
}

// declareAll takes in the declarations of one day. They see each other, in
// whatever order they stand: what another is told of in terms of goes first.
func (n *Nursery) declareAll(day []*fact.Entry) {
	if len(day) == 1 {
		n.step(day[0])
		return
	}
	o := ordering{makes: make(map[string]*fact.Entry, len(day)), state: make(map[*fact.Entry]visit, len(day)), loops: n.loops}
	for _, e := range day {
		if key := made(e.Effect); key != "" && o.makes[key] == nil {
			o.makes[key] = e
		}
	}
	for _, e := range day {
		o.visit(e)
	}
	for _, e := range o.list {
		n.step(e)
	}
}

// An ordering puts declarations behind those that they build on.
type ordering struct {
	makes map[string]*fact.Entry // by the key of what they declare
	state map[*fact.Entry]visit
	path  []*fact.Entry               // those being visited, each needed by the one before
	loops map[*fact.Entry][]fact.Name // those that build on themselves, by way of names
	list  []*fact.Entry
}

type visit uint8

const (
	visiting visit = iota + 1
	visited
)

func (o *ordering) visit(e *fact.Entry) {
	if o.state[e] != 0 {
		return
	}
	o.state[e] = visiting
	o.path = append(o.path, e)
	for _, key := range needs(e.Effect) {
		if on := o.makes[key]; on != nil && o.state[on] == visiting {
			o.loops[e] = nil
			for _, by := range o.path[slices.Index(o.path, on):] {
				o.loops[e] = append(o.loops[e], declared(by.Effect))
			}
		} else if on != nil {
			o.visit(on)
		}
	}
	o.path = o.path[:len(o.path)-1]
	o.state[e] = visited
	o.list = append(o.list, e)
}

// made is the key of the variety or thing that a declaration makes, or empty.
func made(e fact.Effect) string {
	switch e.(type) {
	case *fact.Variety:
		return varietyKey(declared(e))
	case *fact.Tree, *fact.Limb:
		return thingKey(declared(e))
	}
	return ""
}

// declared is the name of the variety or thing that a declaration makes.
func declared(e fact.Effect) fact.Name {
	switch f := e.(type) {
	case *fact.Variety:
		return f.Name
	case *fact.Tree:
		return f.Name
	case *fact.Limb:
		return f.Name
	}
	return fact.Name{}
}

func varietyKey(name fact.Name) string { return "v" + spelling.Fold(name.Text) }
func thingKey(name fact.Name) string   { return "t" + spelling.Fold(name.Text) }

// needs are the keys of what a declaration builds on.
func needs(e fact.Effect) []string {
	var list []string
	variety := func(names ...fact.Name) {
		for _, name := range names {
			list = append(list, varietyKey(name))
		}
	}
	thing := func(name fact.Name) { list = append(list, thingKey(name)) }
	switch f := e.(type) {
	case *fact.Variety:
		variety(f.SeedParent, f.Pollen, f.SportOf)
	case *fact.Tree:
		variety(f.Variety, f.On)
		thing(f.From)
	case *fact.Limb:
		variety(f.Variety)
		thing(f.Of)
	}
	return list
}

// loopless refuses a declaration that builds on itself.
func (n *Nursery) loopless(name fact.Name) bool {
	loop, looped := n.loops[n.now]
	if !looped {
		return true
	}
	says := name.Text + " comes from itself"
	if len(loop) > 1 {
		says = name.Text + " comes from "
		for _, by := range loop[:len(loop)-1] {
			says += by.Text + ", and that from "
		}
		says += name.Text + " again"
	}
	n.refuse(name.Span, "own-ancestor", says+"; one must come first", name.Text)
	return false
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
	for _, l := range []struct {
		name string
		days fact.Quantity
	}{{"first-check", f.Check}, {"stale-check", f.Stale}} {
		if l.days.Given {
			n.declareLimit(&fact.Limit{Rule: fact.Name{Text: l.name, Span: f.Name.Span}, Value: l.days, For: f.Name})
		}
	}
}

func (n *Nursery) declareVariety(f *fact.Variety) {
	if old, taken := n.Variety(f.Name.Text); taken {
		fnd := n.refuse(f.Name.Span, "declared-twice", fmt.Sprintf("the variety %s is declared already; keep one of the two", f.Name.Text), old.Name)
		fnd.Related = []finding.Related{{File: old.Made.File, Span: old.Made.Span, Message: "first here"}}
		return
	}
	if !n.loopless(f.Name) {
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
	if !ok || !n.free(f.Name) || !n.loopless(f.Name) {
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
	if !ok || !n.standsNow(tree, f.Of.Span) || !n.free(f.Name) {
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

// standsNow refuses an entry that does something to a tree which is gone,
// whenever it happened: what is booked today can't hang on it any more.
func (n *Nursery) standsNow(t *Tree, at source.Span) bool {
	if t.Gone == 0 {
		return n.stands(t, at)
	}
	f := n.refuse(at, "tree-gone", fmt.Sprintf("%s was %s on %s and is not there any more", t.Name, t.Gone, t.GoneDay.Long()), t.Name)
	f.Related = []finding.Related{{File: t.GoneBy.File, Span: t.GoneBy.Span, Message: "here it went"}}
	return false
}

// stands refuses an entry about a tree that was gone when it happened, or not
// there yet.
func (n *Nursery) stands(t *Tree, at source.Span) bool {
	day := n.now.Day()
	switch {
	case t.Gone != 0 && day >= t.GoneDay:
		return n.standsNow(t, at)
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
