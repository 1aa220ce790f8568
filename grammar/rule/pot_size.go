package rule

import "github.com/budstick/budstick/grammar/fact"

// potSize is the size of a pot in litres, or in millimetres across.
func potSize(q fact.Quantity) (size float64, volume bool) {
	switch q.Unit {
	case fact.Litre:
		return q.Value.Float(), true
	case fact.Millilitre:
		return q.Value.Float() / 1000, true
	case fact.Gallon:
		return q.Value.Float() * 3.785411784, true
	}
	mm, _ := millimetres(q)
	return mm, false
}
