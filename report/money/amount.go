package money

import (
	"cmp"
	"fmt"
	"math/bits"
	"unique"

	"github.com/cockroachdb/apd/v3"
)

// Guard is the number of decimals that an [Amount] keeps: five to nine more
// than any currency's minor unit, so that the roundings of thousands of shares
// stay far from the cent.
const Guard = 9

// An Amount is an exact sum of money, positive or negative, with up to [Guard]
// decimals and no upper bound. The zero Amount is nought. Amounts never change,
// and two are the same when == says so.
//
// An int64 holds amounts up to 9.2 thousand million units, and their sums cost
// no more than those of integers. Larger ones are kept as text, each once, which
// is what lets == compare them, and are reckoned with by the decimal library.
type Amount struct {
	nano int64                 // thousand-millionths of a unit; 0 where wide is used
	wide unique.Handle[string] // the same in decimal digits, only where nano can't hold it
}

// pow10 holds the powers of ten that fit an int64.
var pow10 = func() (p [19]int64) {
	p[0] = 1
	for i := range p[1:] {
		p[i+1] = p[i] * 10
	}
	return p
}()

// New is the amount coef / 10^decimals: New(1250, 2) is 12.50. It refuses more
// than [Guard] decimals, save that zeros at the end don't count.
func New(coef int64, decimals int) (Amount, error) {
	given := decimals
	for decimals > Guard && coef%10 == 0 && coef != 0 {
		coef, decimals = coef/10, decimals-1
	}
	switch {
	case coef == 0:
		return Amount{}, nil
	case decimals < 0 || decimals > Guard:
		return Amount{}, fmt.Errorf("money has at most %d decimals, not %d", Guard, given)
	}
	return Amount{nano: coef}.MulInt(pow10[Guard-decimals]), nil
}

// Sum adds amounts up.
func Sum(amounts ...Amount) (total Amount) {
	for _, a := range amounts {
		total = total.Add(a)
	}
	return total
}

// Add is a + b.
func (a Amount) Add(b Amount) Amount {
	if sum := a.nano + b.nano; a.narrow() && b.narrow() && (sum > a.nano) == (b.nano > 0) {
		return Amount{nano: sum}
	}
	return fromBig(new(apd.BigInt).Add(a.big(), b.big()))
}

// Sub is a - b.
func (a Amount) Sub(b Amount) Amount {
	if diff := a.nano - b.nano; a.narrow() && b.narrow() && (diff < a.nano) == (b.nano > 0) {
		return Amount{nano: diff}
	}
	return fromBig(new(apd.BigInt).Sub(a.big(), b.big()))
}

// Neg is -a.
func (a Amount) Neg() Amount { return Amount{}.Sub(a) }

// MulInt is a × n, exactly.
func (a Amount) MulInt(n int64) Amount {
	if a.narrow() {
		hi, lo := bits.Mul64(magnitude(a.nano), magnitude(n))
		if hi == 0 && lo <= 1<<63-1 {
			return Amount{nano: signed(lo, (a.nano < 0) != (n < 0))}
		}
	}
	return fromBig(new(apd.BigInt).Mul(a.big(), apd.NewBigInt(n)))
}

// MulFrac is a × num / den, rounded half to even at [Guard] decimals. Like a
// division, it panics where den is 0.
func (a Amount) MulFrac(num, den int64) Amount {
	if a.narrow() {
		by := magnitude(den)
		hi, lo := bits.Mul64(magnitude(a.nano), magnitude(num))
		if hi < by {
			q, r := bits.Div64(hi, lo, by)
			if half := cmp.Compare(r, by-r); half > 0 || half == 0 && q&1 == 1 {
				q++
			}
			if q <= 1<<63-1 {
				return Amount{nano: signed(q, (a.nano < 0) != (num < 0) != (den < 0))}
			}
		}
	}
	product := new(apd.BigInt).Mul(a.big(), apd.NewBigInt(num))
	return fromBig(quo(product, apd.NewBigInt(den), HalfEven))
}

// Mul is a × r, rounded half to even at [Guard] decimals.
func (a Amount) Mul(r Ratio) Amount {
	if r == (Ratio{}) {
		return Amount{}
	}
	return a.MulFrac(r.Num, r.Den)
}

// Sign is -1, 0 or 1.
func (a Amount) Sign() int {
	switch {
	case a.narrow():
		return cmp.Compare(a.nano, 0)
	case a.digits()[0] == '-':
		return -1
	}
	return 1
}

// Cmp is -1 where a is less than b, 0 where they are the same, else 1. It can
// be given to slices.SortFunc as Amount.Cmp.
func (a Amount) Cmp(b Amount) int {
	if a.narrow() && b.narrow() {
		return cmp.Compare(a.nano, b.nano)
	}
	return a.big().Cmp(b.big())
}

// magnitude is |n|, which fits for every n.
func magnitude(n int64) uint64 {
	if n < 0 {
		return -uint64(n)
	}
	return uint64(n)
}

// signed is n or -n; n must fit an int64.
func signed(n uint64, negative bool) int64 {
	if negative {
		return -int64(n)
	}
	return int64(n)
}

// Over is a / b, where b is a number of hours, metres or kilograms, rounded half
// to even at [Guard] decimals. It reports false where b is nought.
func (a Amount) Over(b Amount) (Amount, bool) {
	if b == (Amount{}) {
		return Amount{}, false
	}
	if b.narrow() {
		return a.MulFrac(stepAt(0), b.nano), true
	}
	num := new(apd.BigInt).Mul(a.big(), apd.NewBigInt(stepAt(0)))
	return fromBig(quo(num, b.big(), HalfEven)), true
}
