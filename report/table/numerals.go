package table

import (
	"math"
	"math/big"
	"strconv"
	"strings"

	"golang.org/x/text/currency"
	"golang.org/x/text/language"
	"golang.org/x/text/message"
	"golang.org/x/text/number"
)

// numerals writes numbers the way one language does. It takes exact decimal
// strings, since x/text formats no decimals longer than a float holds: x/text
// groups the whole part, and lends its signs for the rest.
type numerals struct {
	printer                    *message.Printer
	digits                     [10]string
	point, minus               string
	percentBefore, percentPast string
}

func newNumerals(tag language.Tag) numerals {
	n := numerals{printer: message.NewPrinter(tag)}
	for i := range n.digits {
		n.digits[i] = n.printer.Sprint(number.Decimal(i))
	}
	half := n.printer.Sprint(number.Decimal(0.5, number.Scale(1)))
	n.point = strings.TrimSuffix(strings.TrimPrefix(half, n.digits[0]), n.digits[5])
	n.minus = strings.TrimSuffix(n.printer.Sprint(number.Decimal(-1)), n.digits[1])
	n.percentBefore, n.percentPast, _ = strings.Cut(n.printer.Sprint(number.Percent(0.01)), n.digits[1])
	return n
}

// decimal writes a plain decimal such as "-1234.50" with all its digits.
func (n numerals) decimal(plain string) string {
	unsigned, negative := strings.CutPrefix(plain, "-")
	whole, fraction, broken := strings.Cut(unsigned, ".")
	var b strings.Builder
	if negative {
		b.WriteString(n.minus)
	}
	if u, err := strconv.ParseUint(whole, 10, 64); err == nil {
		b.WriteString(n.printer.Sprint(number.Decimal(u)))
	} else {
		b.WriteString(n.figures(whole))
	}
	if broken {
		b.WriteString(n.point + n.figures(fraction))
	}
	return b.String()
}

// figures writes digits without grouping.
func (n numerals) figures(s string) string {
	var b strings.Builder
	for _, r := range s {
		b.WriteString(n.digits[r-'0'])
	}
	return b.String()
}

// percent puts the sign of per cent around a number already written.
func (n numerals) percent(s string) string { return n.percentBefore + s + n.percentPast }

// rounded rounds a plain decimal to so many digits after the point, halves away
// from zero, exactly. A zero has no sign.
func rounded(plain string, digits int) string {
	r, ok := new(big.Rat).SetString(plain)
	if !ok {
		return plain
	}
	s := r.FloatString(digits)
	if strings.Trim(s, "-0.") == "" {
		return strings.TrimPrefix(s, "-")
	}
	return s
}

// fixed is rounded for a measured number.
func fixed(x float64, digits int) string {
	return rounded(strconv.FormatFloat(x, 'f', -1, 64), digits)
}

// scaleOf counts the digits after the point of a plain decimal.
func scaleOf(plain string) int {
	_, fraction, _ := strings.Cut(plain, ".")
	return len(fraction)
}

// moneyDigits says how many digits after the point to show of an amount that
// has so many: no fewer than its currency is usually written with, and no more
// than two unless the currency has three or four.
func moneyDigits(code string, has int) int {
	usual := 2
	if unit, err := currency.ParseISO(code); err == nil {
		usual, _ = currency.Standard.Rounding(unit)
	}
	return min(max(has, usual), max(2, usual))
}

// look is how the cells of one column or one fact are written for people.
type look struct {
	digits int  // after the point; negative for as many as given
	code   bool // money is written with its currency
}

// write returns the cell for people, without its marks.
func (n numerals) write(c Cell, l look) string {
	switch c.kind {
	case KindText, KindDate:
		return visible(c.text)
	case KindCount, KindDays:
		return n.decimal(strconv.FormatInt(c.count, 10))
	case KindMoney:
		s := n.decimal(rounded(c.text, l.digits))
		if l.code {
			return visible(c.currency) + "\u00a0" + s
		}
		return s
	case KindQuantity:
		return n.decimal(rounded(c.text, l.digits))
	case KindRate, KindChange, KindNumber, KindPValue:
		return n.measured(c, l)
	}
	return "–"
}

// measured writes a number that is rounded for people. It never shows a part as
// nothing or as all: those read "<1%" and ">99%".
func (n numerals) measured(c Cell, l look) string {
	x := c.number
	switch {
	case math.IsInf(x, 1):
		return "∞"
	case math.IsInf(x, -1):
		return n.minus + "∞"
	case c.kind == KindRate:
		return n.percent(n.share(x))
	case c.kind == KindChange:
		return n.points(x)
	case c.kind == KindPValue:
		return n.between(x, 0, 1, 3)
	}
	return n.between(x, 0, math.Inf(1), l.digits)
}

// share writes a fraction in hundredths, without the sign.
func (n numerals) share(x float64) string {
	return n.between(100*x, 0, 100, 0)
}

// points writes a difference of fractions in hundredths, always with its sign.
func (n numerals) points(x float64) string {
	s := fixed(100*x, 1)
	if x > 0 && s != "0.0" {
		return "+" + n.decimal(s)
	}
	return n.decimal(s)
}

// between rounds x to so many digits, but says "<" or ">" where that would
// round a number inside the two ends onto one of them.
func (n numerals) between(x, low, high float64, digits int) string {
	s := fixed(x, digits)
	step := math.Pow10(-digits)
	switch {
	case x > low && s == fixed(low, digits):
		return "<" + n.decimal(fixed(low+step, digits))
	case x < high && !math.IsInf(high, 1) && s == fixed(high, digits):
		return ">" + n.decimal(fixed(high-step, digits))
	}
	return n.decimal(s)
}
