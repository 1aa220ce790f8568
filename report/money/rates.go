package money

import (
	"cmp"
	"fmt"
	"slices"
)

// Rates turns foreign money into the farm's own by the rate in force on a day.
// Days are whole numbers that grow with time. The zero Rates knows none.
type Rates struct{ of map[string][]rate }

type rate struct {
	day             int
	foreign, inHome Amount
}

// Set says that from a day on so much foreign money, usually 1, is worth so
// much of the farm's own. A second rate for the same day replaces the first. It
// refuses a rate that is not above nought.
func (r *Rates) Set(currency string, day int, foreign, inHome Amount) error {
	if foreign.Sign() <= 0 || inHome.Sign() <= 0 {
		return fmt.Errorf("a rate must be above 0 on both sides: %s %s is %s", foreign, currency, inHome)
	}
	if r.of == nil {
		r.of = make(map[string][]rate)
	}
	list := r.of[currency]
	i, found := find(list, day)
	if found {
		list[i] = rate{day, foreign, inHome}
		return nil
	}
	r.of[currency] = slices.Insert(list, i, rate{day, foreign, inHome})
	return nil
}

// Convert is an amount of foreign money in the farm's own, rounded half to even
// at [Guard] decimals and not to the cent. It reports false where no rate was
// in force on that day yet; a rate of a later day is never used.
func (r *Rates) Convert(a Amount, currency string, day int) (Amount, bool) {
	list := r.of[currency]
	i, found := find(list, day)
	if found {
		i++
	}
	if i == 0 {
		return Amount{}, false
	}
	return list[i-1].convert(a), true
}

func (r rate) convert(a Amount) Amount {
	if r.inHome.narrow() && r.foreign.narrow() {
		return a.MulFrac(r.inHome.nano, r.foreign.nano)
	}
	product := a.big()
	product.Mul(product, r.inHome.big())
	return fromBig(quo(product, r.foreign.big(), HalfEven))
}

func find(list []rate, day int) (int, bool) {
	return slices.BinarySearchFunc(list, day, func(r rate, day int) int { return cmp.Compare(r.day, day) })
}
