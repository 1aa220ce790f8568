package fact

import "math"

// measures are the units of one kind, each as a multiple of the first: of
// volume, length and mass. The gallon is that of the United States, 231 cubic
// inches; inch, pound and ounce are by the international agreement of 1959.
var measures = []map[Unit]float64{
	{Litre: 1, Millilitre: 0.001, Gallon: 3.785411784},
	{Millimetre: 1, Centimetre: 10, Inch: 25.4},
	{Kilogram: 1, Gram: 0.001, Pound: 0.45359237, Ounce: 0.028349523125},
}

// In is a quantity in another unit, as near as a comparison needs it. It reports
// false where none was written, or it is of another kind.
func (q Quantity) In(u Unit) (float64, bool) {
	for _, kind := range measures {
		if kind[q.Unit] > 0 && kind[u] > 0 {
			return q.Value.Float() * kind[q.Unit] / kind[u], q.Given
		}
	}
	return 0, false
}

// Same reports whether two quantities measure the same, whatever their units: 3 L
// and 3000 ml.
func (q Quantity) Same(o Quantity) bool {
	n, ok := o.In(q.Unit)
	return ok && q.Given && math.Abs(n-q.Value.Float()) <= 1e-9*math.Abs(n)
}
