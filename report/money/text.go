package money

import (
	"fmt"
	"strings"

	"github.com/cockroachdb/apd/v3"
)

// Parse reads digits with at most one point among them, and a minus in front
// where the amount is negative. It refuses more than [Guard] decimals, save
// that zeros at the end don't count.
func Parse(s string) (Amount, error) {
	digits, negative := strings.CutPrefix(s, "-")
	whole, frac, pointed := strings.Cut(digits, ".")
	if whole == "" || pointed && frac == "" || strings.Trim(whole+frac, "0123456789") != "" {
		return Amount{}, fmt.Errorf("%q is not an amount: write digits, and decimals after a point, as in 12.50", s)
	}
	frac = strings.TrimRight(frac, "0")
	if len(frac) > Guard {
		return Amount{}, fmt.Errorf("%s has %d decimals: money has at most %d", s, len(frac), Guard)
	}
	n, _ := new(apd.BigInt).SetString(whole+frac+strings.Repeat("0", Guard-len(frac)), 10) // digits alone
	if negative {
		n.Neg(n)
	}
	return fromBig(n), nil
}

// String writes a exactly and with no more decimals than it needs, as [Parse]
// reads it: 12.5, -0.001, 0.
func (a Amount) String() string { return a.decimal(0) }

// Fixed writes a with places decimals, rounded half to even: 12.50. This is
// the form in which money leaves a report.
func (a Amount) Fixed(places int) string { return a.Round(places, HalfEven).decimal(places) }

// decimal writes a exactly, with at least so many decimals.
func (a Amount) decimal(least int) string {
	digits, negative := strings.CutPrefix(a.digits(), "-")
	if pad := Guard + 1 - len(digits); pad > 0 {
		digits = strings.Repeat("0", pad) + digits
	}
	point := len(digits) - Guard
	keep := max(point+min(max(least, 0), Guard), len(strings.TrimRight(digits, "0")))
	s := digits[:point]
	if keep > point {
		s += "." + digits[point:keep]
	}
	if negative {
		return "-" + s
	}
	return s
}
