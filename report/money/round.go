package money

import "github.com/cockroachdb/apd/v3"

// Rounding says which way a figure between two steps goes.
type Rounding uint8

// The ways of rounding.
const (
	HalfEven Rounding = iota // to the nearer step; a half to the even one
	HalfUp                   // to the nearer step; a half away from nought
	Up                       // to the higher step
	Down                     // to the lower step
)

// Round is a rounded to a number of decimals, 0 to [Guard]; for a currency's
// see [Minor]. Rounding is for showing: round once, at the end.
func (a Amount) Round(places int, mode Rounding) Amount {
	step := stepAt(places)
	if step == 1 {
		return a
	}
	if !a.narrow() {
		d := apd.NewBigInt(step)
		return fromBig(d.Mul(quo(a.big(), d, mode), d))
	}
	q, r := a.nano/step, a.nano%step
	sign := Amount{nano: r}.Sign()
	half := Amount{nano: 2 * r * int64(sign)}.Cmp(Amount{nano: step})
	return Amount{nano: q + mode.nudge(sign, half, q%2 != 0)}.MulInt(step)
}

// nudge is what to add to a quotient that was cut off towards nought. Sign is
// that of the rest, half how twice the rest compares with the divisor.
func (m Rounding) nudge(sign, half int, odd bool) int64 {
	var away bool
	switch m {
	case HalfEven:
		away = half > 0 || half == 0 && odd
	case HalfUp:
		away = half >= 0
	case Up:
		away = sign > 0
	case Down:
		away = sign < 0
	}
	if away {
		return int64(sign)
	}
	return 0
}

// stepAt is the step of a number of decimals, in thousand-millionths. Numbers
// out of range mean the nearest that is in it.
func stepAt(places int) int64 { return pow10[Guard-min(max(places, 0), Guard)] }

// RoundParts rounds figures that stand under one another so that they still
// add up: their sum is the sum of parts rounded half to even, and none is a
// whole step or more from its exact value. The steps that rounding down leaves
// over go to the largest remainders, at a tie to the earlier part.
func RoundParts(parts []Amount, places int) []Amount {
	return roundTo(parts, Sum(parts...).Round(places, HalfEven), places)
}

// roundTo rounds parts so that they add up to want, which must be whole in
// steps and less than one step from their sum.
func roundTo(parts []Amount, want Amount, places int) []Amount {
	rounded := make([]Amount, len(parts))
	rests := make([]ranked[Amount], len(parts))
	left := want
	for i, a := range parts {
		rounded[i] = a.Round(places, Down)
		rests[i] = ranked[Amount]{i, a.Sub(rounded[i])}
		left = left.Sub(rounded[i])
	}
	handOut(rounded, left, stepAt(places), rests, Amount.Cmp)
	return rounded
}
