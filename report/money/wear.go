package money

// Worn is how much of the cost of a thing is used up after so many of the days
// or months of its life: cost × used / life, the straight line, rounded half to
// even at [Guard] decimals. It is nought before the first day and the whole cost
// from the last day on, and at once for a thing without a life.
//
// The charge for a stretch of time is the difference of two such values, so
// that charges add up to the cost whichever way time is cut into seasons. For a
// schedule in cents, use [Allocate] with the days of each year as weights.
func Worn(cost Amount, used, life int64) Amount {
	switch {
	case used >= life:
		return cost
	case used <= 0:
		return Amount{}
	}
	return cost.MulFrac(used, life)
}
