package money

// A Change is the sales of one product in two seasons: how many, and what they
// brought in. The counts of all products must be of one unit.
type Change struct {
	Before, After               int64
	RevenueBefore, RevenueAfter Amount
}

// Effects is a change of revenue in three parts that add up to it; a positive
// part is more revenue.
type Effects struct {
	Price  Amount // the same plants at other prices
	Volume Amount // more or fewer plants, in the same mix at the old prices
	Mix    Amount // dearer or cheaper kinds among them, at the old prices
}

// Total is the change itself.
func (e Effects) Total() Amount { return Sum(e.Price, e.Volume, e.Mix) }

// Add adds part by part.
func (e Effects) Add(f Effects) Effects {
	return Effects{e.Price.Add(f.Price), e.Volume.Add(f.Volume), e.Mix.Add(f.Mix)}
}

// SplitRevenue splits the change of each product's revenue, and of the whole.
// With q and R for count and revenue before, q' and R' after, and Q, Q' the
// counts of all products together:
//
//	price  = R' - R q'/q
//	volume = R Q'/Q - R
//	mix    = R q'/q - R Q'/Q
//
// A product new in the second season has no old price: what it brings in is
// mix. Where nothing at all was sold before, everything is volume.
//
// The parts are rounded to places decimals so that they add up both ways: those
// of a product to its change, and those of all products to the whole. A whole
// that is finer than a step is rounded half to even.
//
// The formulas are the sales price, quantity and mix variances of management
// accounting, with the old season for the budget.
func SplitRevenue(products []Change, places int) (each []Effects, whole Effects) {
	var q, qAfter int64
	changes := make([]Amount, len(products))
	for i, p := range products {
		q, qAfter = q+p.Before, qAfter+p.After
		changes[i] = p.RevenueAfter.Sub(p.RevenueBefore)
	}
	changes = RoundParts(changes, places)
	each = make([]Effects, len(products))
	for i, p := range products {
		e := p.split(q, qAfter)
		parts := roundTo([]Amount{e.Price, e.Volume, e.Mix}, changes[i], places)
		each[i] = Effects{parts[0], parts[1], parts[2]}
		whole = whole.Add(each[i])
	}
	return each, whole
}

// split is the effects for a product where all products together went from q
// to qAfter.
func (p Change) split(q, qAfter int64) Effects {
	if q == 0 {
		return Effects{Volume: p.RevenueAfter.Sub(p.RevenueBefore)}
	}
	atOldPrice := p.RevenueAfter
	if p.Before != 0 {
		atOldPrice = p.RevenueBefore.MulFrac(p.After, p.Before)
	}
	inOldMix := p.RevenueBefore.MulFrac(qAfter, q)
	return Effects{
		Price:  p.RevenueAfter.Sub(atOldPrice),
		Volume: inOldMix.Sub(p.RevenueBefore),
		Mix:    atOldPrice.Sub(inOldMix),
	}
}
