// Package money reckons with exact decimal money: amounts, their rounding to
// the cent, the split of a sum without losing one, the pools in which plants
// carry their cost, and the few figures made from them.
//
// No binary fraction is used anywhere, which a test checks. An [Amount] is a
// whole number of thousand-millionths of a currency's unit. Adding is exact;
// a share of an amount is rounded once, to that grain, and what it was taken
// from keeps the rest, so that nothing is made or lost on the way. Money is
// rounded to the cent only when it is shown, by [Amount.Round], [Amount.Fixed]
// or, for figures that must add up, [RoundParts].
//
// An Amount does not know its currency. Books are kept in one, the farm's own,
// and [Rates] turns foreign money into it at the door.
package money
