package nursery

import (
	"slices"

	"github.com/budstick/budstick/grammar/fact"
)

// A Thing has a name of its own in a journal: a *Lot, *Tree, *Limb or *Bundle.
type Thing interface {
	Label() string // the name as it was first written
	Origin() *fact.Entry
}

// An Identity is what a plant, or a part of one, is: a variety, or a seedling
// of it, which is another plant unless the seed is nucellar.
type Identity struct {
	Variety  *Variety // nil where it is not known
	Seedling bool
}

// Nucellar reports whether the seedling is (most likely) a clone of the
// variety, because its seed is polyembryonic.
func (i Identity) Nucellar() bool {
	return i.Seedling && i.Variety != nil && i.Variety.Embryony == fact.Polyembryonic
}

// String names the identity as a grower may call it.
func (i Identity) String() string {
	switch {
	case i.Variety == nil:
		return "unknown"
	case i.Seedling:
		return "seedling of " + i.Variety.Name
	}
	return i.Variety.Name
}

// Species is the botanical name, or empty where it is not known.
func (i Identity) Species() string {
	if i.Variety == nil {
		return ""
	}
	return i.Variety.Species
}

// A Source is where a plant or wood came from: a lot, tree, limb or bundle of
// the farm, a party or, in links alone, a variety.
type Source struct {
	Thing   Thing
	Party   *Party
	Variety *Variety
}

// Label is the source's name.
func (s Source) Label() string {
	switch {
	case s.Thing != nil:
		return s.Thing.Label()
	case s.Party != nil:
		return s.Party.Name
	case s.Variety != nil:
		return s.Variety.Name
	}
	return ""
}

// A Lot is plants of one kind that are counted together.
type Lot struct {
	Name   string
	Number int32 // its index in the nursery's Lots
	Made   *fact.Entry
	How    fact.How  // how it began
	Day    fact.Date // when, as ages are reckoned
	Top    Identity
	// Below is what the top stands on, from the union down: interstocks, then
	// the rootstock. It is empty on own roots.
	Below      []Identity
	MixedBelow bool // joined of lots on different stocks; Below is that of the first which has any
	// Roots are the lots, trees, bundles and parties that its plants came from;
	// more than one where lots were joined: each plant is one of them.
	Roots []Source
	Wood  []Source // of a graft: the scions; a set where there is more than one
	Inter []Source // the interstock's wood, of a graft made in one step
	// Batch is the attempts that the plants of the lot are part of, or nil.
	Batch *Batch
	// Batches are those of a joined lot, of which each plant is part of one.
	Batches []*Batch
	// Tries is how often its living plants have been worked without success.
	Tries   int
	AtLeast bool // of a joined lot: the highest of the parts

	Mother *Tree // of layers and approach grafts: the tree that they hang on
	Limbs  bool  // the lot is limbs of Mother, not plants
	Beside bool  // the old top was left
	Bare   int32 // living plants of a Beside lot whose new top failed

	On          [fact.States]int32 // on hand, by state
	Out         [fact.Counted + 1]int32
	Entered     int32
	Gone        int32 // to other lots
	Unexplained int32 // missing (or, below zero, over) at stocktakes
	LateMixed   int32 // late failures of a joined lot, which no batch can claim
	Returned    int32 // sold plants that came back, to lots of their own

	late    int32       // of the failed: had taken before
	upper   int32       // of the failed: only the top died, the interstock lives
	blurred bool        // some failed have left, and nobody knows which
	checked *fact.Entry // the last check of its plants
	ordinal int         // of its grafts, where no batch says it any more

	About bool // some of its numbers were not counted out
	Place *Place
	Pot   Pot
	Spots []Spot // Place and Pot as they were, in order
	Marks []Mark
	Tends []*fact.Entry
	// Entries are those that named the lot, in order, from the one that made it.
	Entries []*fact.Entry
}

// Pot is what a lot stands in.
type Pot struct {
	Size  fact.Quantity
	Label string
	Since fact.Date
}

// String writes the size, or the grower's word for it.
func (p Pot) String() string {
	if p.Size.Given {
		return p.Size.Value.String() + " " + string(p.Size.Unit)
	}
	return p.Label
}

// Label is the lot's name.
func (l *Lot) Label() string { return l.Name }

// Origin is the entry that made the lot.
func (l *Lot) Origin() *fact.Entry { return l.Made }

// Plants is all plants on hand, in every state.
func (l *Lot) Plants() int32 {
	return l.On[fact.Waiting] + l.On[fact.Attached] + l.On[fact.Living] + l.On[fact.Failed]
}

// OnMother reports whether what waits in the lot still hangs on a tree.
func (l *Lot) OnMother() bool { return l.Mother != nil && !l.Limbs }

// hangs reports whether plants of a state still hang on the mother.
func (l *Lot) hangs(s fact.State) bool {
	switch s {
	case fact.Waiting, fact.Attached:
		return l.OnMother()
	case fact.Failed: // of an approach graft the stock stands on its own roots
		return l.OnMother() && l.Batch.Kind == LayerBatch
	}
	return false
}

// Free is the plants that stand free, in a state or, for AnyState, in all of
// them: what still hangs on the mother and seed that has not come up are no
// plants yet.
func (l *Lot) Free(s fact.State) int32 {
	switch {
	case s == fact.AnyState:
		return l.Free(fact.Waiting) + l.Free(fact.Living) + l.Free(fact.Failed)
	case l.Limbs, l.hangs(s), s == fact.Waiting && l.Seed():
		return 0
	}
	return l.On[s]
}

// Seed reports whether what waits in the lot is seed.
func (l *Lot) Seed() bool { return l.Batch != nil && l.Batch.Kind == SeedBatch }

// Stock is the identity of the roots.
func (l *Lot) Stock() Identity {
	if len(l.Below) == 0 {
		return l.Top
	}
	return l.Below[len(l.Below)-1]
}

// Grafted reports whether the plants have a union.
func (l *Lot) Grafted() bool { return len(l.Below) > 0 }

// BatchKind sorts attempts by what is tried.
type BatchKind uint8

// The kinds of attempts, as --kind names them.
const (
	GraftBatch BatchKind = iota
	LayerBatch
	CuttingBatch
	SeedBatch
)

var batchKinds = [...]string{"graft", "layer", "cutting", "seed"}

func (k BatchKind) String() string { return batchKinds[k] }

// ParseBatchKind reads a kind of attempts.
func ParseBatchKind(s string) (BatchKind, bool) {
	i := slices.Index(batchKinds[:], s)
	return BatchKind(max(i, 0)), i >= 0
}

// A Batch is the attempts of one entry: stocks worked, layers set, cuttings
// stuck or seeds sown, with what became of them. An attempt is one stock worked
// once, whatever the number of scions on it. For layers and cuttings took means
// rooted, for seed up.
type Batch struct {
	Kind    BatchKind
	Entry   *fact.Entry
	Lot     *Lot // that the entry made
	From    *Lot // the stocks' lot; nil for limbs and what is no graft
	Day     fact.Date
	Top     Identity
	Stock   Identity // of grafts: what was worked
	Wood    []Source
	Method  *Method // nil where none was written
	Limbs   bool
	Ordinal int  // 1 for the first attempt on a stock
	AtLeast bool // the stock came from a joined lot

	Made   int32
	Took   int32
	Failed int32 // top dead, with Dead among them
	Dead   int32 // stock dead too
	Left   int32 // sold, lost or otherwise gone while waiting
	Early  int32 // verdicts before the first-check day: provisional
	Late   int32 // had taken, failed later
	Upper  int32 // of Failed: the top alone, the interstock lives
	Lower  int32 // of Failed: all above the stock

	ScionsEach  int32 // set on each stock
	ScionsKnown int32 // scions on the stocks whose living scions were counted
	ScionsAlive int32
	Plants      int32 // of seed: plants that came up, more than Took where seeds gave several

	FirstCheck fact.Date // a verdict before is provisional
	Stale      fact.Date // by now it should have been looked at
	Checks     []*fact.Entry
	About      bool
}

// Waiting is the attempts whose outcome is not known yet.
func (b *Batch) Waiting() int32 { return b.Made - b.Took - b.Failed - b.Left }

// Known is the attempts whose outcome is known.
func (b *Batch) Known() int32 { return b.Took + b.Failed }

// Crew is who made the attempts: one name, or several joined by " + ".
func (b *Batch) Crew() string { return Crew(b.Entry) }

// Crew is who did what an entry says: one name, or several joined by " + ".
func Crew(e *fact.Entry) string {
	workers := e.Workers()
	names := make([]string, 0, len(workers))
	for _, w := range workers {
		names = append(names, w.Worker.Text)
	}
	if len(names) == 1 {
		return names[0]
	}
	slices.Sort(names)
	out := ""
	for i, s := range slices.Compact(names) {
		if i > 0 {
			out += " + "
		}
		out += s
	}
	return out
}

// A Tree is a plant that is followed on its own.
type Tree struct {
	Name     string
	Made     *fact.Entry
	Variety  *Variety // of its (first) top
	Seedling bool
	On       []Identity // below the top, from the union down
	Beside   bool       // the first of them is an old top that lives on
	Planted  fact.When
	From     Source // the lot it was planted from, a party, or nothing
	Batch    *Batch
	Place    *Place
	State    fact.State // Living, or Waiting and Failed for grafts planted before their check
	Gone     fact.How   // Sold, Given, Lost or Culled; 0 while it stands
	GoneDay  fact.Date
	GoneBy   *fact.Entry
	Tops     []*Lot // limb lots on it
	Limbs    []*Limb
	Layers   []*Lot // set on it
	Inarched []Link // seedlings that became its roots, later than its own
	Marks    []Mark
	Wood     int32 // scions cut or taken straight from it
	Entries  []*fact.Entry
}

// Label is the tree's name.
func (t *Tree) Label() string { return t.Name }

// Origin is the entry that made the tree.
func (t *Tree) Origin() *fact.Entry { return t.Made }

// Identity is what the tree's first top is.
func (t *Tree) Identity() Identity { return Identity{t.Variety, t.Seedling} }

// Standing reports whether the tree is still there.
func (t *Tree) Standing() bool { return t.Gone == 0 }

// loseTop leaves a tree with the old top that stood beside the new one.
func (t *Tree) loseTop() {
	t.Variety, t.Seedling, t.On, t.Beside = t.On[0].Variety, t.On[0].Seedling, t.On[1:], false
}

// Identities are those of all its living tops, its own first.
func (t *Tree) Identities() []Identity {
	list := []Identity{t.Identity()}
	add := func(id Identity) {
		if !slices.Contains(list, id) {
			list = append(list, id)
		}
	}
	if t.Beside {
		add(t.On[0])
	}
	for _, top := range t.Tops {
		if top.On[fact.Living]-top.Bare+top.On[fact.Waiting] > 0 {
			add(top.Top)
		}
	}
	for _, limb := range t.Limbs {
		add(limb.Identity())
	}
	return list
}

// Varieties are those of all its living tops, its own first.
func (t *Tree) Varieties() []*Variety {
	var list []*Variety
	for _, id := range t.Identities() {
		if id.Variety != nil && !slices.Contains(list, id.Variety) {
			list = append(list, id.Variety)
		}
	}
	return list
}

// A Limb is a named limb of a tree.
type Limb struct {
	Name    string
	Made    *fact.Entry
	Tree    *Tree
	Variety *Variety
	Marks   []Mark
	Wood    int32
	Entries []*fact.Entry
}

// Identity is what the limb is: a limb of a seedling is that seedling, unless it
// is another variety.
func (l *Limb) Identity() Identity {
	return Identity{l.Variety, l.Tree.Seedling && l.Variety == l.Tree.Variety}
}

// Label is the limb's name.
func (l *Limb) Label() string { return l.Name }

// Origin is the entry that named the limb.
func (l *Limb) Origin() *fact.Entry { return l.Made }

// A Bundle is wood, or bought seed: parts of plants, reckoned in scions or
// seeds.
type Bundle struct {
	Name     string
	Made     *fact.Entry
	Noun     fact.Noun // Scions or Seed
	Day      fact.Date // when it was cut or bought
	From     []Source
	Variety  *Variety
	Seedling bool  // the wood of a seedling of Variety
	Count    int32 // -1 where it is not known
	Used     int32
	Sold     int32
	Lost     int32
	Store    string
	About    bool
	Entries  []*fact.Entry
}

// Label is the bundle's name.
func (b *Bundle) Label() string { return b.Name }

// Origin is the entry that made the bundle.
func (b *Bundle) Origin() *fact.Entry { return b.Made }

// Identity is what the bundle is wood or seed of.
func (b *Bundle) Identity() Identity { return Identity{b.Variety, b.Seedling} }

// Left is what is left of the bundle; ok is false where its number is not
// known. It may be below zero where more was used than cut.
func (b *Bundle) Left() (n int32, ok bool) {
	return b.Count - b.Used - b.Sold - b.Lost, b.Count >= 0
}

// A Mark is put on a thing or variety and may be taken off again.
type Mark struct {
	Word    string
	Day     fact.Date
	Entry   *fact.Entry
	Cleared *fact.Entry
}

// Marked finds the mark of a word that stands, or stood on a day.
func Marked(marks []Mark, word string, day fact.Date) (Mark, bool) {
	for _, m := range marks {
		if m.Word == word && m.Day <= day && (m.Cleared == nil || m.Cleared.Day() > day) {
			return m, true
		}
	}
	return Mark{}, false
}

// A Variety is a cultivar, or a kind of rootstock.
type Variety struct {
	Name       string
	Made       *fact.Entry
	Fact       *fact.Variety
	Species    string
	Embryony   fact.Embryony
	SeedParent *Variety
	Pollen     *Variety
	SportOf    *Variety
	Marks      []Mark
	Entries    []*fact.Entry

	quotes []*fact.Entry // of effect *fact.Quote, in order
}

// A Place is where plants stand; Fact is nil for one that was only used.
type Place struct {
	Name string
	Fact *fact.Place
	Used *fact.Entry
}

// A Worker is someone who works; Wages are what was declared, in order.
type Worker struct {
	Name  string
	Used  *fact.Entry
	Wages []*fact.Entry // of effect *fact.Worker
}

// A Party is someone outside the farm.
type Party struct {
	Name string
	Fact *fact.Party
	Used *fact.Entry
}

// A Method is a way to graft.
type Method struct {
	Name string
	Fact *fact.Method // nil for one of the trade's own
	Used *fact.Entry
}

// A Cause is why something was lost.
type Cause struct {
	Name string
	Fact *fact.Cause
	Used *fact.Entry
}

// TreeOf is the tree that a tree, limb or lot of limbs belongs to, or nil.
func TreeOf(t Thing) *Tree {
	switch t := t.(type) {
	case *Tree:
		return t
	case *Limb:
		return t.Tree
	case *Lot:
		if t.Limbs {
			return t.Mother
		}
	}
	return nil
}
