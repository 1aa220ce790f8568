package fact

import (
	"math"
	"strconv"
	"strings"

	"github.com/budstick/budstick/grammar/source"
)

// A Name refers to something, or labels it; it is kept as it was written, less
// its quotes. The zero Name is one that was not given.
type Name struct {
	Text string
	Span source.Span
}

// Given reports whether there is a name.
func (n Name) Given() bool { return n.Text != "" }

// A Count is a whole number of plants, seeds, scions or limbs. About marks a
// number that the grower did not count out.
type Count struct {
	N     int32
	About bool
	Given bool
	Span  source.Span
}

// A Decimal is an exact decimal number as written: Coef / 10^Scale. Reckoning
// with decimals is for others; this only carries the literal.
type Decimal struct {
	Coef  int64
	Scale uint8
}

// ParseDecimal reads digits with at most one point. It refuses what does not
// fit 18 digits.
func ParseDecimal(s string) (Decimal, bool) {
	var d Decimal
	digits, point := 0, false
	for i, c := range []byte(s) {
		switch {
		case c >= '0' && c <= '9' && digits < 18:
			digits++
			d.Coef = d.Coef*10 + int64(c-'0')
			if point {
				d.Scale++
			}
		case c == '.' && !point && i > 0:
			point = true
		default:
			return Decimal{}, false
		}
	}
	return d, digits > 0
}

// Zero reports whether d is 0.
func (d Decimal) Zero() bool { return d.Coef == 0 }

// String writes d as it was written: 12.50 stays 12.50.
func (d Decimal) String() string {
	s := strconv.FormatInt(d.Coef, 10)
	if d.Scale == 0 {
		return s
	}
	if pad := int(d.Scale) + 1 - len(s); pad > 0 {
		s = strings.Repeat("0", pad) + s
	}
	point := len(s) - int(d.Scale)
	return s[:point] + "." + s[point:]
}

// Plus adds two literals, exactly.
func (d Decimal) Plus(o Decimal) Decimal {
	for d.Scale < o.Scale {
		d.Coef, d.Scale = d.Coef*10, d.Scale+1
	}
	for o.Scale < d.Scale {
		o.Coef, o.Scale = o.Coef*10, o.Scale+1
	}
	return Decimal{Coef: d.Coef + o.Coef, Scale: d.Scale}
}

// Float is d as a binary fraction: for ratios and rules of thumb, never for
// money that is added up.
func (d Decimal) Float() float64 { return float64(d.Coef) / math.Pow10(int(d.Scale)) }

// Money is an amount and the ISO 4217 code it was written with; no code means
// the farm's own currency.
type Money struct {
	Amount   Decimal
	Currency string
	Given    bool
	Span     source.Span
}

// A Unit is a unit of measure in its canonical spelling.
type Unit string

// The units of the language. Minutes and hours measure work; days, weeks and
// months measure age; each, fruit and scions are not units but nouns.
const (
	Kilogram   Unit = "kg"
	Gram       Unit = "g"
	Pound      Unit = "lb"
	Ounce      Unit = "oz"
	Millimetre Unit = "mm"
	Centimetre Unit = "cm"
	Inch       Unit = "in"
	SquareM    Unit = "m2"
	Hectare    Unit = "ha"
	Litre      Unit = "L"
	Millilitre Unit = "ml"
	Gallon     Unit = "gal"
	Hour       Unit = "h"
	Minute     Unit = "min"
	Day        Unit = "days"
	Week       Unit = "weeks"
	Month      Unit = "months"
	Year       Unit = "years"
	PartsPerM  Unit = "ppm"
	Percent    Unit = "%"
)

// A Quantity is an exact number of a unit.
type Quantity struct {
	Value Decimal
	Unit  Unit
	About bool
	Given bool
	Span  source.Span
}

// A Price is money for each of something, or in all.
type Price struct {
	Each  Money // per plant, fruit or unit
	Per   Unit  // what Each is per; empty means each
	Total Money
}

// Labour is who worked and for how long; Minutes is exact and not Given where
// no time was written.
type Labour struct {
	Worker  Name
	Minutes Decimal
	Timed   bool
}
