package fact

import (
	"math"
	"testing"
)

// The multiples are those of NIST Special Publication 811 (2008), appendix B.8:
// gallon (U.S.) 3.785 412 E-03 m3, inch 2.54 E-02 m, pound 4.535 924 E-01 kg,
// ounce (avoirdupois) 2.834 952 E-02 kg, as printed.
func TestIn(t *testing.T) {
	for _, c := range []struct {
		n        string
		of, in   Unit
		want     float64
		expected bool
	}{
		{"1", Gallon, Litre, 3.785412, true},
		{"1", Inch, Millimetre, 25.4, true},
		{"1", Inch, Centimetre, 2.54, true},
		{"1", Pound, Kilogram, 0.4535924, true},
		{"1", Ounce, Gram, 28.34952, true},
		{"1.5", Litre, Millilitre, 1500, true},
		{"1", Litre, Millimetre, 0, false},
		{"1", Day, Week, 0, false},
	} {
		d, _ := ParseDecimal(c.n)
		got, ok := Quantity{Value: d, Unit: c.of, Given: true}.In(c.in)
		if ok != c.expected || math.Abs(got-c.want) > 5e-7*c.want {
			t.Errorf("%s %s in %s is %v (%v), want %v", c.n, c.of, c.in, got, ok, c.want)
		}
	}
}

func TestSame(t *testing.T) {
	size := func(n string, u Unit) Quantity {
		d, _ := ParseDecimal(n)
		return Quantity{Value: d, Unit: u, Given: true}
	}
	for _, c := range []struct {
		a, b Quantity
		want bool
	}{
		{size("3", Litre), size("3000", Millilitre), true},
		{size("0.1", Litre), size("100", Millilitre), true},
		{size("3", Litre), size("3001", Millilitre), false},
		{size("10", Centimetre), size("100", Millimetre), true},
		{size("3", Litre), size("3", Centimetre), false},
		{size("3", Litre), Quantity{}, false},
		{Quantity{}, Quantity{}, false},
	} {
		if c.a.Same(c.b) != c.want || c.b.Same(c.a) != c.want {
			t.Errorf("%v and %v are the same: %v", c.a, c.b, !c.want)
		}
	}
}
