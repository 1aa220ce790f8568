package rule

import (
	_ "embed"
	"sync"

	spelling "github.com/budstick/budstick/grammar/name"
	"github.com/budstick/budstick/grammar/nursery"
)

//go:embed methods.csv
var methodsCSV string

// A tradeMethod is a method that the trade knows: under which name it is meant
// here, and its kind.
type tradeMethod struct{ name, kind string }

// tradeMethods are the methods that need no declaration, by folded name.
var tradeMethods = sync.OnceValue(func() map[string]tradeMethod {
	m := map[string]tradeMethod{}
	for _, row := range rows(methodsCSV) {
		name := row[0]
		if row[1] != "" {
			name = row[1]
		}
		m[row[0]] = tradeMethod{name, row[2]}
	}
	return m
})

// methodNamed is what the trade knows of a method; the zero value is nothing.
func methodNamed(m *nursery.Method) tradeMethod {
	if m == nil {
		return tradeMethod{}
	}
	return tradeMethods()[spelling.Fold(m.Name)]
}
