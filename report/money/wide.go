package money

import (
	"strconv"
	"unique"

	"github.com/cockroachdb/apd/v3"
)

// narrow reports whether a fits its int64.
func (a Amount) narrow() bool { return a.wide == unique.Handle[string]{} }

// digits writes a in thousand-millionths of a unit.
func (a Amount) digits() string {
	if a.narrow() {
		return strconv.FormatInt(a.nano, 10)
	}
	return a.wide.Value()
}

// big is a in thousand-millionths of a unit.
func (a Amount) big() *apd.BigInt {
	if a.narrow() {
		return apd.NewBigInt(a.nano)
	}
	n, _ := new(apd.BigInt).SetString(a.digits(), 10) // always digits: fromBig wrote them
	return n
}

// fromBig is the amount of n thousand-millionths. Each amount has one form
// only, or == would not do.
func fromBig(n *apd.BigInt) Amount {
	if n.IsInt64() {
		return Amount{nano: n.Int64()}
	}
	return Amount{wide: unique.Make(n.String())}
}

// quo is num / den as a whole number, rounded by mode.
func quo(num, den *apd.BigInt, mode Rounding) *apd.BigInt {
	var q, r apd.BigInt
	q.QuoRem(num, den, &r)
	sign := r.Sign() * den.Sign()
	half := r.Abs(&r).Cmp(new(apd.BigInt).Sub(new(apd.BigInt).Abs(den), &r))
	return q.Add(&q, apd.NewBigInt(mode.nudge(sign, half, q.Bit(0) == 1)))
}
