package rule

import "github.com/budstick/budstick/grammar/fact"

// millimetres is a length in mm; it reports false where none was written.
func millimetres(q fact.Quantity) (float64, bool) {
	per := 0.0
	switch q.Unit {
	case fact.Millimetre:
		per = 1
	case fact.Centimetre:
		per = 10
	case fact.Inch:
		per = 25.4
	}
	return q.Value.Float() * per, q.Given
}
