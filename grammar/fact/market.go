package fact

// Quote is what is asked for plants, fruit or scions of a variety, from a day
// on: of everyone, or of one buyer or kind of buyer.
type Quote struct {
	Of   Name // the variety
	Each Money
	Per  Unit     // what Each is per; empty means each
	Pot  Quantity // only of plants in such a pot
	To   Name     // only to this party, or to those declared as this
}

// Share says how the costs of some labels are shared, from a day on, where
// they name no lot.
type Share struct {
	Labels []Name // what was spent on, or the task
	By     Base
}

// A Base is what costs are shared by.
type Base uint8

// The bases. Plant-days are meant where none is declared.
const (
	PlantDays Base = iota // plants × the days that they stood
	AreaDays              // the room of their pots × those days
	Heads                 // plants, however long they stood
	Bases                 // the number of bases, for tables indexed by one
)

var bases = [...]string{"plant-days", "area-days", "count"}

func (b Base) String() string { return bases[b] }

// ParseBase reads the word for a base.
func ParseBase(s string) (Base, bool) {
	for i, word := range bases {
		if word == s {
			return Base(i), true
		}
	}
	return PlantDays, false
}

// Paid is money in from a customer.
type Paid struct {
	Amount Money
	From   Name
	Paper  Name // the invoice or delivery note it is for
}

func (*Quote) effect() {}
func (*Share) effect() {}
func (*Paid) effect()  {}
