package nursery

import (
	"fmt"
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
)

// makeLot begins a lot by the entry at hand.
func (n *Nursery) makeLot(name fact.Name, how fact.How) *Lot {
	l := &Lot{Name: name.Text, Number: int32(len(n.Lots)), Made: n.now, How: how, Day: n.now.Day(), Entries: make([]*fact.Entry, 1, 8)}
	l.Entries[0] = n.now
	l.Place = n.place(n.now.At())
	keep[Thing](n.things, l.Name, l)
	n.Lots = append(n.Lots, l)
	n.shifted = append(n.shifted, l)
	return l
}

// makeBatch begins the attempts of a lot that the entry at hand made.
func (n *Nursery) makeBatch(kind BatchKind, l *Lot, made int32) *Batch {
	b := &Batch{Kind: kind, Entry: n.now, Lot: l, Day: l.Day, Top: l.Top, Made: made, Ordinal: 1, ScionsEach: 1}
	l.Batch = b
	n.Batches = append(n.Batches, b)
	return b
}

// A wait is how long attempts are left alone: a look before first says little,
// one after stale no longer tells when they failed.
type wait struct{ first, stale fact.Date }

// A waitKey is what a wait depends on.
type waitKey struct {
	kind    BatchKind
	method  *Method
	variety *Variety
}

// deadlines sets when a batch may first be looked at and by when it should.
func (n *Nursery) deadlines(b *Batch) {
	key := waitKey{b.Kind, b.Method, b.Top.Variety}
	w, known := n.waits[key]
	if !known {
		w = n.waitOf(key)
		if n.waits == nil {
			n.waits = map[waitKey]wait{}
		}
		n.waits[key] = w
	}
	b.FirstCheck, b.Stale = b.Day+w.first, b.Day+w.stale
}

// waitOf asks the limits; what they said holds until one more is declared.
func (n *Nursery) waitOf(key waitKey) wait {
	first, stale := "first-check", "stale-check"
	switch key.kind {
	case LayerBatch:
		first, stale = "layer-first-check", "layer-stale"
	case CuttingBatch:
		first, stale = "cutting-first-check", "cutting-stale"
	case SeedBatch:
		first, stale = "", "seed-stale"
	}
	var of []string
	if key.method != nil {
		of = append(of, key.method.Name)
	}
	if key.variety != nil {
		of = append(of, key.variety.Name, key.variety.Species)
	}
	var w wait
	if l, ok := n.Limit(first, n.now.Date, of...); ok {
		w.first = l.Days()
	}
	if l, ok := n.Limit(stale, n.now.Date, of...); ok {
		w.stale = l.Days()
	}
	return w
}

func (n *Nursery) begin(f *fact.Begin) {
	switch {
	case f.How == fact.Stuck:
		n.stick(f)
	case f.How == fact.Sown:
		n.sow(f)
	case f.Noun == fact.Scions || f.Noun == fact.Sticks || f.Noun == fact.Seed || f.Noun == fact.Cuttings:
		n.buyParts(f)
	default:
		n.buyPlants(f)
	}
}

func (n *Nursery) sow(f *fact.Begin) {
	v, ok := n.variety(f.Of)
	if !ok || !n.free(f.As) {
		return
	}
	roots, ok := n.seedFrom(f, v)
	if !ok {
		return
	}
	n.useSeed(roots, f.Count.N)
	l := n.makeLot(f.As, fact.Sown)
	l.Top, l.Roots, l.About = Identity{v, true}, roots, f.Count.About
	b := n.makeBatch(SeedBatch, l, f.Count.N)
	b.About = f.Count.About
	n.deadlines(b)
	n.enter(fact.Sown, l, fact.Waiting, f.Count.N)
}

// seedFrom finds where seed that is sown comes from: bought or kept seed, of
// which there must be enough, trees and lots of its variety, or a party.
func (n *Nursery) seedFrom(f *fact.Begin, v *Variety) ([]Source, bool) {
	var roots []Source
	left, counted := int64(0), len(f.From) > 0
	for _, name := range f.From {
		s := n.source(name)
		switch t := s.Thing.(type) {
		case *Bundle:
			if t.Noun != fact.Seed {
				n.refuse(name.Span, "wrong-kind", fmt.Sprintf("%s is %s, not seed", t.Name, kindOf(t)), t.Name)
				return nil, false
			}
			if !n.cutBefore(t, name.Span) || !n.seedOf(v, name, t.Identity(), []*Variety{t.Variety}) {
				return nil, false
			}
			some, _ := t.Left()
			left += int64(max(some, 0))
			counted = counted && !t.About && !f.Count.About
		case *Tree:
			if !n.seedOf(v, name, t.Identity(), t.Varieties()) {
				return nil, false
			}
			counted = false
		default:
			counted = false
		}
		roots = append(roots, s)
	}
	if counted && left < int64(f.Count.N) {
		n.refuse(f.Count.Span, "too-many", fmt.Sprintf("%s has %s left, and %d %s sown here", roots[0].Label(), finding.Counted(left, "seed", "seeds"), f.Count.N, isOrAre(f.Count.N)), roots[0].Label())
		return nil, false
	}
	return roots, n.canUse(f.Count.Span, roots, int64(f.Count.N))
}

// useSeed takes seed out of the bundles among its sources. Where it is from a
// tree as well, the bundles give what they have.
func (n *Nursery) useSeed(from []Source, count int32) {
	var bundles []Source
	left := int32(0)
	for _, s := range from {
		if b, ok := s.Thing.(*Bundle); ok {
			some, _ := b.Left()
			left += min(max(some, 0), count-left)
			bundles = append(bundles, s)
		}
	}
	if len(bundles) < len(from) {
		count = left
	}
	n.use(fact.Sown, bundles, count)
}

// seedOf refuses seed that can't be of the variety that is said to be sown.
func (n *Nursery) seedOf(v *Variety, from fact.Name, is Identity, could []*Variety) bool {
	if slices.Contains(could, v) {
		return true
	}
	n.refuse(from.Span, "seed-variety", fmt.Sprintf("%s is %s, so its seed is not of %s; the seed's variety is its mother's", from.Text, is, v.Name), from.Text)
	return false
}

func (n *Nursery) stick(f *fact.Begin) {
	top, roots, ok := n.cuttingsOf(f.Of)
	if !ok || !n.free(f.As) || !n.canUse(f.Count.Span, roots, int64(f.Count.N)) {
		return
	}
	n.use(fact.Stuck, roots, f.Count.N)
	l := n.makeLot(f.As, fact.Stuck)
	l.Top, l.Roots, l.About = top, roots, f.Count.About
	b := n.makeBatch(CuttingBatch, l, f.Count.N)
	b.About, b.Method, b.Wood = f.Count.About, n.method(f.By), roots
	n.deadlines(b)
	n.enter(fact.Stuck, l, fact.Waiting, f.Count.N)
}

// cuttingsOf finds what cuttings are of: a thing that wood can be cut from, or
// a variety of unknown mother.
func (n *Nursery) cuttingsOf(name fact.Name) (Identity, []Source, bool) {
	if _, known := n.Thing(name.Text); !known {
		if v, ok := n.Variety(name.Text); ok {
			v.Entries = append(v.Entries, n.now)
			return Identity{Variety: v}, nil, true
		}
	}
	return n.wood([]fact.Name{name})
}

func (n *Nursery) buyPlants(f *fact.Begin) {
	v, ok := n.variety(f.Of)
	if !ok || !n.free(f.As) {
		return
	}
	l := n.makeLot(f.As, fact.Bought)
	l.Top, l.About = Identity{Variety: v}, f.Count.About
	for _, name := range f.From {
		l.Roots = append(l.Roots, Source{Party: n.party(name)})
	}
	n.enter(fact.Bought, l, fact.Living, f.Count.N)
}

// buyParts takes in wood or seed, which is no plant yet.
func (n *Nursery) buyParts(f *fact.Begin) {
	v, ok := n.variety(f.Of)
	if !ok || !n.free(f.As) {
		return
	}
	b := n.makeBundle(f.As, f.Noun, Identity{Variety: v})
	b.Count, b.About = f.Count.N, f.Count.About
	if f.Noun == fact.Sticks {
		b.Noun, b.Count = fact.Scions, -1
	}
	for _, name := range f.From {
		b.From = append(b.From, Source{Party: n.party(name)})
	}
}

func (n *Nursery) makeBundle(name fact.Name, noun fact.Noun, of Identity) *Bundle {
	b := &Bundle{Name: name.Text, Made: n.now, Noun: noun, Day: n.now.Day(), Variety: of.Variety, Seedling: of.Seedling, Entries: []*fact.Entry{n.now}}
	keep[Thing](n.things, b.Name, b)
	n.Bundles = append(n.Bundles, b)
	return b
}

func (n *Nursery) layer(f *fact.Layer) {
	if f.Again {
		n.layerAgain(f)
		return
	}
	t, ok := n.thing(f.On)
	if !ok || !n.free(f.As) {
		return
	}
	tree := TreeOf(t)
	if tree == nil {
		n.refuse(f.On.Span, "wrong-kind", fmt.Sprintf("layers are set on a tree, and %s is %s", t.Label(), kindOf(t)), t.Label())
		return
	}
	top, ok := n.woodOf(t, f.On)
	if !ok || !n.standsNow(tree, f.On.Span) {
		return
	}
	l := n.makeLot(f.As, fact.Layered)
	l.Top, l.Mother, l.Roots, l.About = top, tree, []Source{{Thing: t}}, f.Count.About
	tree.Layers = append(tree.Layers, l)
	b := n.makeBatch(LayerBatch, l, f.Count.N)
	b.About, b.Method, b.Wood = f.Count.About, n.method(f.By), l.Roots
	n.deadlines(b)
	n.enter(fact.Layered, l, fact.Waiting, f.Count.N)
}

// layerAgain wounds and wraps layers again that made no roots.
func (n *Nursery) layerAgain(f *fact.Layer) {
	from, ok := n.lot(f.On)
	if !ok || !n.free(f.As) {
		return
	}
	if !from.hangs(fact.Failed) {
		n.refuse(f.On.Span, "wrong-kind", fmt.Sprintf("%s is no lot of layers, so none of it can be layered again", from.Name), from.Name)
		return
	}
	if !n.has(from, fact.Failed, f.Count, "layered again") {
		return
	}
	l := n.makeLot(f.As, fact.Layered)
	l.Top, l.Mother, l.Roots = from.Top, from.Mother, []Source{{Thing: from}}
	l.Mother.Layers = append(l.Mother.Layers, l)
	b := n.makeBatch(LayerBatch, l, f.Count.N)
	b.Ordinal, b.AtLeast, b.Method, b.Wood = from.Batch.Ordinal+1, from.AtLeast, n.method(f.By), from.Batch.Wood
	n.deadlines(b)
	n.passOn(fact.Layered, from, fact.Failed, l, fact.Waiting, f.Count.N)
}

// has refuses an entry that takes more plants of a state than there are.
func (n *Nursery) has(l *Lot, state fact.State, want fact.Count, verb string) bool {
	if l.On[state] >= want.N {
		return true
	}
	message := fmt.Sprintf("%d %s %s here, but %s has %d %s; on this day it holds %s",
		want.N, isOrAre(want.N), verb, l.Name, l.On[state], state, l.states())
	otherwise := ""
	if instead, ok := l.elsewhere(state, want.N); ok {
		otherwise = fmt.Sprintf("; if those are meant, write %d %s of %s", want.N, instead, l.Name)
	}
	end, related := otherwise, []finding.Related(nil)
	if state != fact.Waiting {
		end, related = n.orMend(l.Name, otherwise)
	}
	f := n.refuse(want.Span, "too-many", message+end, l.Name)
	if f.Related = related; related == nil {
		f.Related = []finding.Related{{File: l.Made.File, Span: l.Made.Span, Message: "the lot began here"}}
	}
	return false
}

// elsewhere finds the one other state that holds as many plants.
func (l *Lot) elsewhere(state fact.State, want int32) (fact.State, bool) {
	for s := fact.Waiting; s < fact.States; s++ {
		if s != state && s != fact.Attached && l.On[s] >= want {
			return s, true
		}
	}
	return 0, false
}
