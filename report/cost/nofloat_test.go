package cost_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"strings"
	"testing"
)

// TestNoFloats reads the package's own source: no binary fraction may stand on
// the way of money. A float can come in by its type, a literal, a function or
// field that is named after it, or package math.
func TestNoFloats(t *testing.T) {
	paths, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	files := token.NewFileSet()
	read := 0
	for _, path := range paths {
		if strings.HasSuffix(path, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(files, path, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		read++
		for _, at := range floats(file) {
			t.Errorf("%s: a float on the way of money", files.Position(at))
		}
	}
	if read < 8 {
		t.Errorf("%d files were read: the test looks in the wrong place", read)
	}
}

func floats(file *ast.File) (found []token.Pos) {
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.Ident:
			if strings.Contains(strings.ToLower(n.Name), "float") || strings.Contains(strings.ToLower(n.Name), "complex") {
				found = append(found, n.Pos())
			}
		case *ast.BasicLit:
			if n.Kind == token.FLOAT || n.Kind == token.IMAG {
				found = append(found, n.Pos())
			}
		case *ast.ImportSpec:
			if n.Path.Value == `"math"` || n.Path.Value == `"math/cmplx"` {
				found = append(found, n.Pos())
			}
		case *ast.SelectorExpr: // a limit's value is one, for rules of thumb
			if x, ok := n.X.(*ast.Ident); ok && x.Name == "limit" && n.Sel.Name == "Value" {
				found = append(found, n.Pos())
			}
		}
		return true
	})
	return found
}

// TestFloatsAreFound makes sure that the search can fail.
func TestFloatsAreFound(t *testing.T) {
	for _, src := range []string{
		"package p; var x float64", "package p; var x = 0.5", "package p; var x = d.Float()", "package p; import \"math\"",
		"package p; var x = limit.Value",
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
