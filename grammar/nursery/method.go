package nursery

import (
	_ "embed"
	"encoding/csv"
	"strings"
	"sync"

	spelling "github.com/budstick/budstick/grammar/name"
)

//go:embed methods.csv
var methodsCSV string

// A TradeMethod is a method that the trade knows: the name that goes before the
// others it has, and its kind, a word such as bud or bark.
type TradeMethod struct{ Name, Kind string }

// TradeMethods are the methods that need no declaration, by folded name.
var TradeMethods = sync.OnceValue(func() map[string]TradeMethod {
	rows, err := csv.NewReader(strings.NewReader(methodsCSV)).ReadAll()
	if err != nil {
		panic(err)
	}
	m := map[string]TradeMethod{}
	for _, row := range rows[1:] {
		name := row[0]
		if row[1] != "" {
			name = row[1]
		}
		m[row[0]] = TradeMethod{name, row[2]}
	}
	return m
})

// Trade is what the trade knows of a method; the zero value is nothing. No
// method is none that it knows.
func (m *Method) Trade() TradeMethod {
	if m == nil {
		return TradeMethod{}
	}
	return TradeMethods()[spelling.Fold(m.Name)]
}

// LeavesTop reports whether the method leaves the stock its top, which is cut
// back when the scion has taken.
func (m TradeMethod) LeavesTop() bool {
	return m.Kind == "side" || m.Kind == "bud" || m.Kind == "bark bud"
}
