package fact

import "time"

// Farm is the farm itself; it stands once in a journal.
type Farm struct {
	Name         Name
	Currency     string // ISO 4217, or empty
	SeasonFrom   time.Month
	Country      Name // ISO 3166-1 alpha-3, for papers
	Registration Name // the farm's number with its plant health authority
	South        bool // the farm lies south of the equator
}

// Embryony is how a variety's seed breeds.
type Embryony uint8

// Nothing is known of a variety's embryony unless it is declared.
const (
	UnknownEmbryony Embryony = iota
	Monoembryonic            // each seedling is a new genotype
	Polyembryonic            // most seedlings are clones of the seed mother
)

// MonthRange is a run of months that may pass the year's end.
type MonthRange struct{ From, To time.Month }

// Variety declares a cultivar or a kind of rootstock.
type Variety struct {
	Name       Name
	Species    Name
	Embryony   Embryony
	SeedParent Name // a variety, or the word unknown
	Pollen     Name
	SportOf    Name
	Rootstock  bool
	Picks      []MonthRange
	Trade      Name // the name it is sold under, where that is another
	Protected  Date // until when propagation is a matter of a licence
	Right      Name
	Licence    Name
	LicensedN  Count // how many may be propagated under the licence
}

// Tree declares a plant that is followed on its own.
type Tree struct {
	Name    Name
	Variety Name
	On      Name // the variety of its rootstock
	From    Name // a lot, bundle or tree of that name if there is one, else a party
	Planted When
	At      Name
}

// Limb names a limb of a tree, of the tree's variety or a sport of it.
type Limb struct{ Name, Of, Variety Name }

// Place is where plants stand.
type Place struct {
	Name  Name
	Area  Quantity
	Holds Count
}

// Worker is a person who works, with the wage from this day on.
type Worker struct {
	Name Name
	Wage Money
	Per  Unit
}

// Party is someone outside the farm.
type Party struct{ Name, As Name }

// Method is a method of grafting of the grower's own, or other days for a
// known one.
type Method struct {
	Name  Name
	Check Quantity // first look after so long
	Stale Quantity // and so long after, a look says nothing about when it failed
}

// Cause is a cause of loss.
type Cause struct{ Name Name }

// Rate values one unit of a currency in another, from a day on.
type Rate struct{ Of, Is Money }

// Limit changes a rule of thumb, for everything or for one species, variety,
// method or place.
type Limit struct {
	Rule  Name
	Value Quantity
	For   Name
}

func (*Farm) effect()    {}
func (*Variety) effect() {}
func (*Tree) effect()    {}
func (*Limb) effect()    {}
func (*Place) effect()   {}
func (*Worker) effect()  {}
func (*Party) effect()   {}
func (*Method) effect()  {}
func (*Cause) effect()   {}
func (*Rate) effect()    {}
func (*Limit) effect()   {}

// Declares reports whether an effect states a standing fact, which the entries
// of its whole day see.
func Declares(e Effect) bool {
	switch e.(type) {
	case *Farm, *Variety, *Tree, *Limb, *Place, *Worker, *Party, *Method, *Cause, *Rate, *Limit, *Quote, *Share:
		return true
	}
	return false
}
