package fact

// How says by which act a lot began or a plant left: one word of the closed
// list below.
type How uint8

// The acts.
const (
	Sown How = iota + 1
	Stuck
	Bought
	Layered
	Grafted
	Severed
	Released
	SplitOff
	Potted
	Moved
	Joined
	Returned
	Sold
	Given
	Lost
	Culled
	PlantedOut
	Worked  // used as a stock
	Checked // a verdict
	FailedLate
	Revived
	Counted // a stocktake
)

var hows = [...]string{"", "sown", "stuck", "bought", "layered", "grafted", "severed", "released",
	"split off", "potted", "moved", "joined", "returned", "sold", "given", "lost", "culled", "planted",
	"used as stock", "checked", "failed", "revived", "counted"}

func (h How) String() string { return hows[h] }

// Noun says what is counted.
type Noun uint8

// The nouns. Plants is meant where none is written.
const (
	Plants Noun = iota
	Seed
	Cuttings
	Liners
	Trees
	Scions
	Sticks
	Limbs
	Fruit
)

var nouns = [...]string{"plants", "seed", "cuttings", "liners", "trees", "scions", "sticks", "limbs", "fruit"}

func (n Noun) String() string { return nouns[n] }

// Begin makes a lot, or for bought scions a bundle, from outside or from a
// plant: sow, stick and buy.
type Begin struct {
	How   How // Sown, Stuck or Bought
	Count Count
	Noun  Noun
	Of    Name // the variety; for cuttings a variety, tree or bundle
	As    Name
	From  []Name // trees, lots or bundles of that name, else a party
	Total Money
	Rooting
}

// Rooting is how cuttings and layers were made to root.
type Rooting struct {
	By       Name
	Hormone  Name
	Strength Quantity // of the hormone
	Wound    Quantity // how long
}

// Layer sets air-layers on a tree, or again on the layers of a lot that made
// no roots.
type Layer struct {
	Count Count
	On    Name // the tree or limb; of the lot where Again
	Again bool // layer 1 failed of FG25
	As    Name
	Rooting
}

// Cut makes a bundle of wood. Scions are reckoned: sticks of known buds make
// that many each, and of unknown buds an unknown number.
type Cut struct {
	Count   Count
	Noun    Noun // Scions or Sticks
	Buds    Count
	From    []Name
	As      Name
	Store   Name
	Caliper Quantity
}

// Graft works stocks of a lot, limbs of a tree, or puts seedlings into a
// standing tree (Into).
type Graft struct {
	Count   Count
	Noun    Noun  // Plants or Limbs
	State   State // AnyState means living
	Of      Name
	With    []Name // bundles or trees; empty only with Into
	Over    Name   // the interstock's wood
	Into    Name
	By      Name
	As      Name
	Scions  Count // on each stock; not given means one
	Beside  bool
	Caliper Quantity
}

// Verdict is one outcome of a check.
type Verdict uint8

// The verdicts. Upper and Lower belong to interstocks made in one step.
const (
	Took Verdict = iota + 1
	Rooted
	Up
	Fails
	Dead
	Unsure
	Upper
	Lower
)

var verdicts = [...]string{"", "took", "rooted", "up", "failed", "dead", "unsure", "upper", "lower"}

func (v Verdict) String() string { return verdicts[v] }

// Outcome is a verdict on some of the plants looked at.
type Outcome struct {
	Count   Count
	Verdict Verdict
	With    Count // living scions, or plants from the seeds that came up
	Noun    Noun  // of With: Scions or Plants
	Cause   Name
}

// Check is a dated observation; a Sample moves no count.
type Check struct {
	Lot      Name
	Looked   Count
	Outcomes []Outcome
	Sample   bool
}

// Turn changes the state of plants that stay in their lot, after the check:
// a top that died (FailedLate) or a bud that pushed after all (Revived).
type Turn struct {
	How   How
	Count Count
	State State // AnyState means living of a top that died, failed of one that pushed
	Lot   Name
	To    Name // the cause
	Why   Name
}

// Pass takes plants of a lot on, with their past: to a lot of their own where
// As is given, else within the lot. Sever, release, split, pot and move.
type Pass struct {
	How   How
	Count Count // not given: all
	State State
	Lot   Name
	As    Name
	Pot   Quantity // the new pot, by volume or width
	Label Name     // or by a word of the grower's
	To    Name     // the new place
}

// Join makes one lot of several.
type Join struct {
	Lots []Name
	As   Name
}

// Leave takes plants, wood or fruit out of the nursery.
type Leave struct {
	How      How // Sold, Given, Lost or Culled
	Noun     Noun
	Count    Count    // not given: the whole lot or tree, unless a Quantity of fruit
	Quantity Quantity // of fruit
	State    State
	Of       Name // a lot, tree, limb or bundle
	Price    Price
	To       Name // the party, or the cause of a loss
	Why      Name
	Paper    Name // the invoice or delivery note
}

// Plant sets plants of a lot out; named ones are followed as trees.
type Plant struct {
	Count   Count
	State   State
	Of      Name
	As      Name // the first tree
	Through Name // the last, of several
	Variety Name
}

// Return takes back plants that were sold; dead ones make no lot.
type Return struct {
	Count Count
	State State
	Dead  bool
	Of    Name // the lot they were sold from
	From  Name // the party
	As    Name
	Total Money
	Why   Name
}

// Pick is fruit off trees.
type Pick struct {
	Mass  Quantity
	Fruit Count
	From  []Name
}

// Stocktake compares what stands with what is reckoned.
type Stocktake struct {
	Lots    []Name
	Count   Count
	State   State // AnyState: all plants
	Missing Count
	Over    Count
	Of      State // the state that Missing or Over changes; AnyState: living
}

// Spend is money out, for some lots or for everything.
type Spend struct {
	Amount Money
	On     Name
	For    []Name
	From   Name
	Over   Quantity // how long the thing lasts
}

// Work is a task done, for some lots or for everything; who and how long is in
// the entry's Extra.
type Work struct {
	Task Name
	For  []Name
}

// Tend says a job is done on lots or trees.
type Tend struct {
	Lots []Name
	Job  Name
	With Name
}

// Treat is a product put on lots, trees or places. How much of it is for its
// label to say and never written here.
type Treat struct {
	Of      []Name // lots, trees, limbs or places
	With    Name   // the product
	Number  Name   // it is registered under
	Reentry Quantity
	Why     Name
}

// Inspect is an inspector's look at lots, trees, places or the whole farm.
type Inspect struct {
	Of          []Name
	By          Name
	Certificate Name
	Until       Date // the certificate is valid, both ends counted
}

// Mark puts a mark on a tree, limb, lot or variety, or takes it off.
type Mark struct {
	Of    Name
	Mark  Name
	Clear bool
	Why   Name
}

// Remark is a note on things.
type Remark struct {
	Of   []Name
	Text Name
}

// Strike says that an earlier entry of the same file no longer counts.
type Strike struct {
	Line  int32
	Words string // how that line begins, as written here
	Why   Name
	Span  Name // the line's number and words, for messages
}

// Allow silences one rule for one thing.
type Allow struct {
	Rule Name
	On   Name
	Why  Name
}

// Seal closes everything above it.
type Seal struct{ Hash Name }

// Version is the version of the language that the file is written in.
type Version struct{ N Count }

func (*Begin) effect()     {}
func (*Layer) effect()     {}
func (*Cut) effect()       {}
func (*Graft) effect()     {}
func (*Check) effect()     {}
func (*Turn) effect()      {}
func (*Pass) effect()      {}
func (*Join) effect()      {}
func (*Leave) effect()     {}
func (*Plant) effect()     {}
func (*Return) effect()    {}
func (*Pick) effect()      {}
func (*Stocktake) effect() {}
func (*Spend) effect()     {}
func (*Work) effect()      {}
func (*Tend) effect()      {}
func (*Treat) effect()     {}
func (*Inspect) effect()   {}
func (*Mark) effect()      {}
func (*Remark) effect()    {}
func (*Strike) effect()    {}
func (*Allow) effect()     {}
func (*Seal) effect()      {}
func (*Version) effect()   {}
