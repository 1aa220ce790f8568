package syntax

import "github.com/budstick/budstick/grammar/fact"

// spellings are how units may be written, without regard to case.
var spellings = []struct {
	word string
	unit fact.Unit
}{
	{"kg", fact.Kilogram}, {"g", fact.Gram}, {"lb", fact.Pound}, {"lbs", fact.Pound}, {"oz", fact.Ounce},
	{"mm", fact.Millimetre}, {"cm", fact.Centimetre}, {"in", fact.Inch}, {"inch", fact.Inch}, {"inches", fact.Inch},
	{"m2", fact.SquareM}, {"ha", fact.Hectare},
	{"l", fact.Litre}, {"ml", fact.Millilitre}, {"gal", fact.Gallon},
	{"h", fact.Hour}, {"min", fact.Minute},
	{"day", fact.Day}, {"days", fact.Day}, {"week", fact.Week}, {"weeks", fact.Week},
	{"month", fact.Month}, {"months", fact.Month}, {"year", fact.Year}, {"years", fact.Year},
	{"ppm", fact.PartsPerM}, {"%", fact.Percent},
}

var units = newWordTable(UnitSpellings())

// UnitSpellings are all spellings of units, in small letters.
func UnitSpellings() []string {
	out := make([]string, len(spellings))
	for i, s := range spellings {
		out[i] = s.word
	}
	return out
}

// UnitNamed finds a unit by any of its spellings.
func UnitNamed(s string) (fact.Unit, bool) {
	n := units.find([]byte(s))
	if n == 0 {
		return "", false
	}
	return spellings[n-1].unit, true
}

func isUnit(b []byte) bool { return units.find(b) > 0 }

// IsCurrency reports whether s is the code of a currency, in capitals.
func IsCurrency(s string) bool { return isCurrency([]byte(s)) }

func isCurrency(b []byte) bool {
	if len(b) != 3 {
		return false
	}
	_, ok := fact.MinorUnit(string(b))
	return ok
}
