package money

import (
	"errors"

	"github.com/cockroachdb/apd/v3"
)

// PriceFor is the price of each of so many plants that pays their cost, the
// cost of selling and a margin, the last two as shares of the price:
//
//	cost / plants / (1 - selling - margin)
//
// With no margin it is the break-even price. It is reckoned exactly and rounded
// once, up to places decimals: a price rounded down would not quite pay. It
// refuses no plants, negative shares, and shares that leave nothing.
func PriceFor(cost Amount, plants int64, selling, margin Ratio, places int) (Amount, error) {
	selling, margin = selling.sound(), margin.sound()
	if plants <= 0 {
		return Amount{}, errors.New("there is no plant to sell that could pay the cost")
	}
	if selling.Num < 0 || margin.Num < 0 {
		return Amount{}, errors.New("the shares for selling and for the margin can't be negative")
	}
	// Both shares over one denominator: left / per is what they leave.
	per := product(selling.Den, margin.Den)
	left := new(apd.BigInt).Sub(per, product(selling.Num, margin.Den))
	left.Sub(left, product(margin.Num, selling.Den))
	if left.Sign() <= 0 {
		return Amount{}, errors.New("selling and margin take the whole price: together they must stay under 100 %")
	}
	step := apd.NewBigInt(stepAt(places))
	den := left.Mul(left, product(plants, stepAt(places)))
	return fromBig(step.Mul(step, quo(per.Mul(per, cost.big()), den, Up))), nil
}

// product is a × b.
func product(a, b int64) *apd.BigInt {
	n := apd.NewBigInt(a)
	return n.Mul(n, apd.NewBigInt(b))
}
