package rule

import "github.com/budstick/budstick/grammar/fact"

// potSize is the size of a pot in litres, or in millimetres across.
func potSize(q fact.Quantity) (size float64, volume bool) {
	if litres, ok := q.In(fact.Litre); ok {
		return litres, true
	}
	mm, _ := q.In(fact.Millimetre)
	return mm, false
}
