package rule

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// ruleArgument is which argument of a function that reports something is the
// name of the rule.
var ruleArgument = map[string]int{"errorf": 1, "refuse": 1, "say": 2, "unknown": 1, "mend": 0}

// raised finds the names of rules in the code that reads and replays: the
// arguments of the functions above and what the Rule of a finding is set to. What is no
// literal is a parameter that is passed on.
func raised(t *testing.T) map[string]string {
	t.Helper()
	names := map[string]string{}
	literal := func(e ast.Expr, at string) {
		if lit, ok := e.(*ast.BasicLit); ok && lit.Kind == token.STRING {
			name, err := strconv.Unquote(lit.Value)
			if err != nil {
				t.Fatal(err)
			}
			if name != "" {
				names[name] = at
			}
		}
	}
	for _, dir := range []string{"../entry", "../nursery", "../syntax"} {
		err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			set := token.NewFileSet()
			file, err := parser.ParseFile(set, path, nil, 0)
			if err != nil {
				return err
			}
			ast.Inspect(file, func(n ast.Node) bool {
				switch n := n.(type) {
				case *ast.CallExpr:
					name := ""
					switch f := n.Fun.(type) {
					case *ast.SelectorExpr:
						name = f.Sel.Name
					case *ast.Ident:
						name = f.Name
					}
					if i, ok := ruleArgument[name]; ok && i < len(n.Args) {
						literal(n.Args[i], set.Position(n.Pos()).String())
					}
				case *ast.AssignStmt:
					for i, to := range n.Lhs {
						if f, ok := to.(*ast.SelectorExpr); ok && f.Sel.Name == "Rule" && len(n.Rhs) == len(n.Lhs) {
							literal(n.Rhs[i], set.Position(n.Pos()).String())
						}
					}
				case *ast.KeyValueExpr:
					if key, ok := n.Key.(*ast.Ident); ok && key.Name == "Rule" {
						literal(n.Value, set.Position(n.Pos()).String())
					}
				}
				return true
			})
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	return names
}

// Every rule that reading or replaying raises has a page, and every page
// without a question is of a rule that one of them raises.
func TestEveryRuleHasAPage(t *testing.T) {
	names := raised(t)
	if len(names) < 50 {
		t.Fatalf("only %d names of rules were found; how they are raised has changed", len(names))
	}
	for name, at := range names {
		if r, ok := Named(name); !ok {
			t.Errorf("%s: %s has no page", at, name)
		} else if r.check != nil {
			t.Errorf("%s: %s has a question of its own here", at, name)
		}
	}
	for _, r := range All {
		if _, ok := names[r.Name]; !ok && r.check == nil && !strings.HasPrefix(r.Name, "allow-") {
			t.Errorf("%s has a page, but nothing raises it", r.Name)
		}
	}
}

// All forgets no rule: each one that is written in this package stands in it.
func TestAllIsWhole(t *testing.T) {
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range files {
		if strings.HasSuffix(path, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(file, func(n ast.Node) bool {
			lit, ok := n.(*ast.CompositeLit)
			if !ok {
				return true
			}
			if kind, ok := lit.Type.(*ast.Ident); !ok || kind.Name != "Rule" {
				return true
			}
			name, err := strconv.Unquote(lit.Elts[0].(*ast.KeyValueExpr).Value.(*ast.BasicLit).Value)
			if err != nil {
				t.Fatal(err)
			}
			if _, ok := Named(name); !ok {
				t.Errorf("%s: %s does not stand in All", path, name)
			}
			return true
		})
	}
}
