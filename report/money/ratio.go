package money

import "fmt"

// A Ratio is an exact fraction Num / Den, such as a share, an exchange rate or
// a number of kilograms. The zero Ratio is nought; in any other, Den is above 0.
type Ratio struct{ Num, Den int64 }

// Decimal is the ratio coef / 10^decimals, with decimals from 0 to 18. A
// percentage has two decimals more than its number: 12.5 % is Decimal(125, 3).
func Decimal(coef int64, decimals int) (Ratio, error) {
	if decimals < 0 || decimals >= len(pow10) {
		return Ratio{}, fmt.Errorf("a number has at most %d decimals, not %d", len(pow10)-1, decimals)
	}
	return Ratio{coef, pow10[decimals]}, nil
}

// sound gives the zero Ratio its denominator.
func (r Ratio) sound() Ratio {
	if r == (Ratio{}) {
		r.Den = 1
	}
	return r
}
