package cost

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/money"
)

// An Enterprise is a part of the farm that pays for itself, or does not.
type Enterprise uint8

// The enterprises.
const (
	Trees Enterprise = iota
	Fruit
	Wood
	Enterprises
)

var enterpriseNames = [...]string{"trees", "fruit", "wood"}

func (e Enterprise) String() string { return enterpriseNames[e] }

// A Kind says what became of cost, or of money.
type Kind uint8

// The kinds of flows. Spent comes in; Carried comes out of Wood into Trees or
// Fruit; Sold, Given, Planted, Lost and Unallocated go out. Returned, Out and In
// move no cost.
const (
	Spent       Kind = iota + 1
	Carried          // the cost of wood or seed, into what it was used for
	Sold             // with its Revenue
	Given            // away
	Planted          // out, where it is no stock of the nursery any more
	Lost             // beyond what is normal, or with nobody left to bear it
	Unallocated      // shared costs of a month in which nothing stood
	Returned         // came back: Revenue is what was given back, below 0
	Out              // as it was written: money paid out, or hours worked
	In               // a payment of a customer: Revenue is how much
)

// A Flow is cost, or money, going from one place to another on a day.
type Flow struct {
	Kind       Kind
	Enterprise Enterprise
	Day        fact.Date
	Thing      nursery.Thing   // the lot, tree or bundle; nil for what is shared
	From       *nursery.Bundle // of Carried: where it comes from
	State      fact.State      // of plants sold or returned: Failed for plain stocks
	Entry      *fact.Entry     // nil for the charges of a month
	N          int64           // plants or scions
	Load       Load
	Revenue    money.Amount
	Written    Written    // Revenue as it was asked for or paid, or what one sum of an Out says
	Supposed   []Supposed // of plants that are sold, given, planted or lost
}

// Written is money before it is turned into the farm's own.
type Written struct {
	Amount   money.Amount
	Currency string // empty where nothing was written
}

// A Standing is what a lot, or a bundle of wood, holds at the end.
type Standing struct {
	Lot    *nursery.Lot // or
	Bundle *nursery.Bundle
	N      int64 // plants or scions
	Living int64 // of them: neither waiting, attached nor failed
	Load   Load
	// Supposed is what the lot would hold.
	Supposed []Supposed
}

// A Thing is something that was bought for longer than a month.
type Thing struct {
	Entry *fact.Entry
	Ends  fact.Date // the last day that it serves
	Cost  money.Amount
	Worn  money.Amount // by the end of the last day followed

	paid   Load
	first  money.Amount // what the first month uses up, until its entry is followed
	months []wear
}

type wear struct {
	until fact.Date
	worn  money.Amount
}

// WornBy is how much of it was used up by the end of a day; within a month that
// is what was used up by the month before.
func (t *Thing) WornBy(day fact.Date) money.Amount {
	for i := len(t.months) - 1; i >= 0; i-- {
		if t.months[i].until <= day {
			return t.months[i].worn
		}
	}
	return money.Amount{}
}

// A Book is what is known when all flows have been followed.
type Book struct {
	Currency string // of all money: the farm's own
	Places   int    // decimals of its minor unit
	Standing []Standing
	Things   []*Thing
	Doubts   Doubts
}

// Doubts are what the figures can't know.
type Doubts struct {
	Unpriced []*fact.Entry // sales without a price
	Listed   []*fact.Entry // sales at the price that the journal declares
	Late     []*fact.Entry // costs of lots, written when nothing was left of them
	NoWage   []Worked      // hours of workers without a wage on their day
	Foreign  []string      // currencies that were turned into the farm's own
	ByDay    bool          // a wage per day was taken for 8 hours
	Unshared []fact.Name   // labels that are declared to be shared, and never were
}

// Worked is hours of a worker, on one entry.
type Worked struct {
	Entry  *fact.Entry
	Worker string
	Hours  money.Amount
}
