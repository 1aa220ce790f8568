package money_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"strings"
	"testing"
)

// TestNoFloats reads the package's own source: no binary fraction may stand on
// the way of money. A float can come in by its type, a literal, a function that
// is named after it, or package math, most of which returns one.
func TestNoFloats(t *testing.T) {
	entries, err := os.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	fset := token.NewFileSet()
	read := 0
	for _, entry := range entries {
		name := entry.Name()
		if !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(fset, name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		read++
		for _, found := range floats(file) {
			t.Errorf("%s: a float on the way of money", fset.Position(found.Pos()))
		}
	}
	if read < 5 {
		t.Errorf("read %d files: the test looks in the wrong place", read)
	}
}

func floats(file *ast.File) (found []ast.Node) {
	ast.Inspect(file, func(n ast.Node) bool {
		bad := false
		switch n := n.(type) {
		case *ast.Ident:
			lower := strings.ToLower(n.Name)
			bad = strings.Contains(lower, "float") || strings.Contains(lower, "complex")
		case *ast.BasicLit:
			bad = n.Kind == token.FLOAT || n.Kind == token.IMAG
		case *ast.ImportSpec:
			bad = n.Path.Value == `"math"` || n.Path.Value == `"math/cmplx"`
		}
		if bad {
			found = append(found, n)
		}
		return true
	})
	return found
}

// TestFloatsAreFound makes sure that the search can fail.
func TestFloatsAreFound(t *testing.T) {
	for _, src := range []string{
		"package p; var x float64",
		"package p; func f(x float32) {}",
		"package p; var x = 0.5",
		"package p; var x = 1e3",
		"package p; var x = 1i",
		"package p; var x, _ = d.Float64()",
		"package p; import \"math\"",
	} {
		file, err := parser.ParseFile(token.NewFileSet(), "p.go", src, 0)
		if err != nil {
			t.Fatal(err)
		}
		if len(floats(file)) == 0 {
			t.Errorf("not found: %s", src)
		}
	}
}
