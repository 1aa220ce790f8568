package table

import (
	"math"
	"strconv"
	"strings"
)

// A scale lays numbers along a line.
type scale struct {
	low, high float64
	log       bool
	reference float64 // NaN for none
	kind      Kind    // of the numbers, for the labels at its ends
}

// at returns where x lies, from 0 at the low end to 1 at the high one. What
// lies outside is put at the end it is beyond.
func (s scale) at(x float64) float64 {
	x = min(max(x, s.low), s.high)
	if s.log {
		return math.Log(x/s.low) / math.Log(s.high/s.low)
	}
	return (x - s.low) / (s.high - s.low)
}

// A span is something to draw on a scale; its numbers are NaN where unknown.
type span struct{ low, point, high float64 }

func spanOf(low, point, high Cell) span {
	return span{low.position(), point.position(), high.position()}
}

// position returns the number of a cell for drawing, NaN if it has none. A
// drawing may round money; nothing else here does.
func (c Cell) position() float64 {
	switch c.kind {
	case KindRate, KindChange, KindNumber, KindPValue:
		return c.number
	case KindCount, KindDays:
		return float64(c.count)
	case KindMoney, KindQuantity:
		if x, err := strconv.ParseFloat(c.text, 64); err == nil {
			return x
		}
	}
	return math.NaN()
}

// scale chooses the scale of a rate, nothing to all, or of a change, as far to
// either side as the widest interval reaches.
func (t Table) scale(column, low, high int) *scale {
	if t.Columns[column].Kind == KindRate {
		return &scale{low: 0, high: 1, reference: math.NaN(), kind: KindRate}
	}
	reach := 0.1
	for _, row := range t.Rows {
		for _, i := range []int{column, low, high} {
			if x := math.Abs(row[i].position()); x > reach && !math.IsInf(x, 0) {
				reach = math.Ceil(x*10) / 10
			}
		}
	}
	return &scale{low: -reach, high: reach, reference: 0, kind: KindChange}
}

// tick writes a label for an end of the scale or a place on it.
func (n numerals) tick(s scale, x float64) string {
	switch s.kind {
	case KindRate:
		return n.percent(n.decimal(fixed(100*x, 0)))
	case KindChange:
		return n.decimal(fixed(100*x, 0))
	}
	digits := 0
	switch {
	case s.log && x < 1:
		digits = 1 + int(math.Ceil(-math.Log10(x)))
	case !s.log && s.high-s.low < 10:
		digits = 1 + int(math.Ceil(-math.Log10(s.high-s.low)+1))
	}
	label := fixed(x, digits)
	if digits > 0 {
		label = strings.TrimRight(strings.TrimRight(label, "0"), ".")
	}
	return n.decimal(label)
}

// niceScale spreads a scale over the numbers, with round ends. Zero is on it
// when from zero is asked, as for lengths.
func niceScale(numbers []float64, kind Kind, fromZero bool) scale {
	const beyondReason = 1e100 // left to run off the scale, which it would flatten
	low, high := math.Inf(1), math.Inf(-1)
	for _, x := range numbers {
		if math.Abs(x) < beyondReason {
			low, high = min(low, x), max(high, x)
		}
	}
	if fromZero {
		low, high = min(low, 0), max(high, 0)
	}
	if low > high {
		low, high = 0, 1
	}
	if high-low <= 1e-12*math.Abs(high) {
		high = low + max(1, math.Abs(low))
	}
	step := roundStep((high - low) / 4)
	return scale{low: math.Floor(low/step) * step, high: math.Ceil(high/step) * step, reference: math.NaN(), kind: kind}
}

// logScale is niceScale for ratios: its ends are the powers of two or of ten
// around the numbers. Ends further than a thousandfold from one are cut, since
// an interval without limit has no place to end at.
func logScale(numbers []float64) scale {
	low, high := 0.5, 2.0
	for _, x := range numbers {
		if math.IsNaN(x) || math.IsInf(x, 0) || x <= 0 {
			continue
		}
		for low > x && low > 0.001 {
			low /= 2
		}
		for high < x && high < 1000 {
			high *= 2
		}
	}
	return scale{low: low, high: high, log: true, reference: math.NaN(), kind: KindNumber}
}

// roundStep returns the smallest of 1, 2, 5 times a power of ten that is no less
// than x.
func roundStep(x float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(x)))
	for _, m := range []float64{1, 2, 5} {
		if m*power >= x {
			return m * power
		}
	}
	return 10 * power
}

// ticks returns the places worth a label, low to high.
func (s scale) ticks() []float64 {
	if s.log {
		ticks := []float64{}
		for x := s.low; x <= s.high*1.0001; x *= math.Pow(2, math.Ceil(math.Log2(s.high/s.low)/5)) {
			ticks = append(ticks, x)
		}
		return ticks
	}
	step := roundStep((s.high - s.low) / 5)
	first := math.Ceil(s.low/step - 1e-9)
	ticks := []float64{}
	for i := first; i*step <= s.high+step*1e-9; i++ {
		ticks = append(ticks, i*step)
	}
	return ticks
}
