package nursery

import "github.com/budstick/budstick/grammar/fact"

// A Link says that something came from a source, and by which step.
type Link struct {
	From  Source
	Step  Step
	Entry *fact.Entry // that made the step; nil for what was only declared
	Count int32       // plants, scions or seeds that took it; 0 where it is not known
	OneOf bool        // each plant came from one of several such sources
	// Topless says that the source's own top was dead, or cut off unseen: what
	// came along is what that top stood on.
	Topless bool
	// Late says that a standing tree got it: what was taken from the tree on an
	// earlier day has nothing of it.
	Late bool
}

// Day is when the step was made; 0 for what was declared before the first day.
func (l Link) Day() fact.Date {
	if l.Entry == nil {
		return 0
	}
	return l.Entry.Day()
}

// A Step is how something came from something else.
type Step uint8

// The steps. Scion, Interstock and StockOf are the parts of a graft; RootsFrom
// and TopOn are what a standing tree got later.
const (
	Scion        Step = iota + 1
	Interstock        // the piece between scion and stock
	StockOf           // the roots
	LimbOf            // the standing tree whose limbs were worked
	LayerOf           // a branch rooted on the tree
	CuttingOf         // a cutting
	WoodOf            // wood cut from it
	Kept              // the same plants in another lot, or set out as a tree
	Seedling          // its seed
	BoughtFrom        // brought in from a party
	RootsFrom         // seedlings grafted in as new roots
	TopOn             // limbs of the tree were worked over
	OfVariety         // of what nothing else is known, its variety
	SportOf           // a variety that arose on a limb of another
	SeedParent        // of a variety
	PollenParent      // of a variety
)

var steps = [...]string{"", "scion", "interstock", "stock", "limb", "layer", "cutting", "wood", "same plants", "seed", "bought",
	"new roots", "top", "variety", "sport", "seed parent", "pollen parent"}

func (s Step) String() string { return steps[s] }

// Parents are what a source came from, one step back: every plant that had a
// part in it, whether or not that part still lives. A thing whose variety no
// other thing accounts for has the variety too, and a variety those that it was
// raised from. A party has none: its papers go on from there.
func (n *Nursery) Parents(s Source) []Link {
	switch {
	case s.Variety != nil:
		return s.Variety.parents()
	case s.Thing == nil:
		return nil
	}
	var out []Link
	switch t := s.Thing.(type) {
	case *Lot:
		out = t.parents()
	case *Bundle:
		out = t.parents()
	case *Limb:
		out = []Link{t.tree()}
	case *Tree:
		out = t.parents()
	}
	if l, ok := ownVariety(s.Thing); ok {
		out = append(out, l)
	}
	return out
}

// Tops are the links by which the top of a thing came to be what it is: of a
// graft the scion, and never the stock. Several are alternatives. Stocks that
// were released from a graft go back to the stocks they were.
func (n *Nursery) Tops(t Thing) []Link {
	switch t := t.(type) {
	case *Bundle:
		return t.parents()
	case *Limb:
		return []Link{t.tree()}
	case *Tree:
		if l, ok := t.topless(); ok {
			return l.topAt(len(t.On), t.Made, 1)
		}
		return t.top()
	case *Lot:
		switch t.How {
		case fact.Grafted:
			return links(t.Wood, Scion, t.Made, t.Entered)
		case fact.Released:
			return t.topAt(len(t.Below), t.Made, t.Entered)
		}
		return t.parents()
	}
	return nil
}

// Clones reports whether a thing that came by a link is (at its top) the same
// genotype as the link's source; sure is false for a seedling that is most
// likely, but not certainly, nucellar. A lot of seedlings has no one genotype,
// so nothing is of it.
func Clones(t Thing, l Link) (same, sure bool) {
	if l.From.Thing != nil && manyGenotypes(l.From.Thing) {
		return false, false
	}
	switch l.Step {
	case Scion, Interstock, LayerOf, CuttingOf, WoodOf, Kept:
		return true, true
	case LimbOf:
		_, limb := t.(*Limb)
		return limb, limb
	case OfVariety, Seedling:
		if l.Step == OfVariety && !isSeed(t) {
			return true, true
		}
		return Identity{IdentityOf(t).Variety, true}.Nucellar(), false
	}
	return false, false
}

// manyGenotypes reports whether a thing is seedlings of which each is a genotype
// of its own, or wood or plants taken from a lot of such.
func manyGenotypes(t Thing) bool {
	id := IdentityOf(t)
	if !id.Seedling || id.Nucellar() {
		return false
	}
	var from []Source
	switch t := t.(type) {
	case *Bundle:
		from = t.From
	case *Lot:
		switch t.How {
		case fact.Sown:
			return true
		case fact.Grafted:
			from = t.Wood
		default:
			from = t.Roots
		}
	}
	for _, s := range from {
		if s.Thing != nil && manyGenotypes(s.Thing) {
			return true
		}
	}
	return false
}

// isSeed reports whether a thing is seed that was not sown yet.
func isSeed(t Thing) bool {
	b, ok := t.(*Bundle)
	return ok && b.Noun == fact.Seed
}

func links(from []Source, step Step, e *fact.Entry, count int32) []Link {
	out := make([]Link, len(from))
	for i, s := range from {
		out[i] = Link{From: s, Step: step, Entry: e, Count: count, OneOf: len(from) > 1}
		if s.Thing == nil {
			out[i].Step = BoughtFrom
		}
	}
	return out
}

// ownVariety links a thing to its variety where no thing that it came from
// accounts for that.
func ownVariety(t Thing) (Link, bool) {
	id := IdentityOf(t)
	if id.Variety == nil {
		return Link{}, false
	}
	step := OfVariety
	var from []Source
	switch t := t.(type) {
	case *Bundle:
		from = t.From
	case *Tree:
		from = []Source{t.From}
	case *Limb:
		from = []Source{{Thing: t.Tree}}
	case *Lot:
		if t.How == fact.Sown {
			step = Seedling
		}
		if from = t.Roots; t.How == fact.Grafted {
			from = t.Wood
		} else if t.How == fact.Released {
			return Link{}, false
		}
	}
	for _, s := range from {
		if s.Thing != nil && IdentityOf(s.Thing).Variety == id.Variety {
			return Link{}, false
		}
	}
	return Link{From: Source{Variety: id.Variety}, Step: step, Entry: t.Origin()}, true
}

// IdentityOf is what the top of a thing is; of a tree with several, its first.
func IdentityOf(t Thing) Identity {
	switch t := t.(type) {
	case *Lot:
		return t.Top
	case *Tree:
		return t.Identity()
	case *Limb:
		return t.Identity()
	case *Bundle:
		return t.Identity()
	}
	return Identity{}
}

func (v *Variety) parents() []Link {
	var out []Link
	add := func(p *Variety, step Step) {
		if p != nil {
			out = append(out, Link{From: Source{Variety: p}, Step: step, Entry: v.Made})
		}
	}
	add(v.SportOf, SportOf)
	add(v.SeedParent, SeedParent)
	add(v.Pollen, PollenParent)
	return out
}

func (b *Bundle) parents() []Link { return links(b.From, WoodOf, b.Made, max(b.Count, 0)) }

func (l *Limb) tree() Link { return Link{From: Source{Thing: l.Tree}, Step: LimbOf, Entry: l.Made} }

// top is where the tree's first top came from.
func (t *Tree) top() []Link {
	if t.From == (Source{}) {
		return nil
	}
	out := links([]Source{t.From}, Kept, t.Made, 1)
	if b, ok := t.From.Thing.(*Bundle); ok {
		out[0].Step = Scion
		if isSeed(b) {
			out[0].Step = Seedling
		}
	}
	_, out[0].Topless = t.topless()
	return out
}

// topless is the lot that a tree was planted from without its top: of grafts
// beside the old top, one on which the new top had failed.
func (t *Tree) topless() (*Lot, bool) {
	l, ok := t.From.Thing.(*Lot)
	return l, ok && len(t.On) < len(l.Below)
}

func (t *Tree) parents() []Link {
	out := append(t.top(), t.Inarched...)
	for _, l := range t.Tops {
		out = append(out, Link{From: Source{Thing: l}, Step: TopOn, Entry: l.Made, Count: l.Entered, Late: true})
	}
	return out
}

func (l *Lot) parents() []Link {
	count := l.Entered
	switch l.How {
	case fact.Sown:
		return links(l.Roots, Seedling, l.Made, count)
	case fact.Stuck:
		return links(l.Roots, CuttingOf, l.Made, count)
	case fact.Layered:
		step := LayerOf
		if len(l.Roots) == 1 {
			if from, ok := l.Roots[0].Thing.(*Lot); ok && !from.Limbs {
				step = Kept // layered again
			}
		}
		return links(l.Roots, step, l.Made, count)
	case fact.Grafted:
		return l.graftParents()
	}
	out := links(l.Roots, Kept, l.Made, count)
	for i := range out {
		out[i].Topless = l.How == fact.Released
	}
	return out
}

// graftParents are the wood, the interstock and the stocks, or the tree whose
// limbs were worked. Limbs that were worked before have both.
func (l *Lot) graftParents() []Link {
	out := links(l.Wood, Scion, l.Made, l.Entered)
	out = append(out, links(l.Inter, Interstock, l.Made, l.Entered)...)
	stocks := links(l.Roots, StockOf, l.Made, l.Entered)
	for i := range stocks {
		stocks[i].Topless = l.onTopless()
	}
	out = append(out, stocks...)
	if l.Limbs {
		out = append(out, Link{From: Source{Thing: l.Mother}, Step: LimbOf, Entry: l.Made, Count: l.Entered})
	}
	return out
}

// onTopless reports whether the stocks of a graft had lost the top that they
// carried before.
func (l *Lot) onTopless() bool {
	f, ok := l.Made.Effect.(*fact.Graft)
	return ok && f.State != fact.AnyState && f.State != fact.Living
}

// topAt are the links by which the plants of a lot got the part with so many
// others below it, back through splits and joins, and through grafts of which
// only the stocks went on. Each source is named once, by however many ways the
// plants came.
func (l *Lot) topAt(below int, e *fact.Entry, count int32) []Link {
	var out []Link
	seen := map[Source]bool{}
	add := func(list []Link) {
		for _, link := range list {
			if !seen[link.From] {
				seen[link.From] = true
				out = append(out, link)
			}
		}
	}
	for stack := []Source{{Thing: l}}; len(stack) > 0; {
		s := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		at, lot := s.Thing.(*Lot)
		switch {
		case at != l && (!lot || below >= len(at.Below)):
			add(links([]Source{s}, Kept, e, count))
		case seen[s]:
		case at.How == fact.Grafted && len(at.Inter) > 0 && below == len(at.Below)-1:
			seen[s] = true
			add(links(at.Inter, Interstock, e, count))
		default:
			seen[s] = true
			for i := len(at.Roots) - 1; i >= 0; i-- {
				stack = append(stack, at.Roots[i])
			}
		}
	}
	for i := range out {
		out[i].OneOf = len(out) > 1
	}
	return out
}

// PartsBelow are the links by which the plants of a lot got what their top stands
// on, part by part, each to the thing whose top that part was: neither to a top
// that died on the way nor to what a mother of the wood stood on.
func (l *Lot) PartsBelow() []Link {
	var out []Link
	for below := range l.Below {
		out = append(out, l.topAt(below, l.Made, l.Entered)...)
	}
	return out
}
