package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// root is the top of the project, as tests of this package see it.
const root = "../.."

const module = "github.com/budstick/budstick/"

// A listed package is what `go list` tells of one.
type listed struct {
	ImportPath string
	Dir        string
	GoFiles    []string
	Imports    []string
}

// name is the package's path within the project.
func (p listed) name() string { return strings.TrimPrefix(p.ImportPath, module) }

func listPackages(t *testing.T) []listed {
	t.Helper()
	cmd := exec.Command("go", "list", "-json=ImportPath,Dir,GoFiles,Imports", "./...")
	cmd.Dir = root
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	var list []listed
	for d := json.NewDecoder(bytes.NewReader(out)); ; {
		var p listed
		if err := d.Decode(&p); errors.Is(err, io.EOF) {
			return list
		} else if err != nil {
			t.Fatal(err)
		}
		list = append(list, p)
	}
}

var quoted = regexp.MustCompile("`([^`]+)`")

// tableRows reads a table of DEVELOPERS.md, which begins with a row whose first
// cell is heading: the names in the first column, with those in the last.
func tableRows(t *testing.T, heading string) map[string][]string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(root, "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	rows := map[string][]string{}
	inside := false
	for line := range strings.SplitSeq(string(text), "\n") {
		cells := strings.Split(strings.Trim(line, "|"), "|")
		switch {
		case !strings.HasPrefix(line, "|"):
			inside = false
		case strings.TrimSpace(cells[0]) == heading:
			inside = true
		case inside && strings.Contains(cells[0], "`"):
			name := quoted.FindStringSubmatch(cells[0])[1]
			rows[name] = nil
			for _, m := range quoted.FindAllStringSubmatch(cells[len(cells)-1], -1) {
				rows[name] = append(rows[name], m[1])
			}
			if strings.TrimSpace(cells[len(cells)-1]) == "everything" {
				rows[name] = []string{"everything"}
			}
		}
	}
	if len(rows) == 0 {
		t.Fatalf("DEVELOPERS.md has no table of a %s", heading)
	}
	return rows
}

func TestImportsGoOneWay(t *testing.T) {
	allowed := tableRows(t, "package")
	packages := listPackages(t)
	for _, p := range packages {
		may, ok := allowed[p.name()]
		if !ok {
			t.Errorf("%s is not in the table of DEVELOPERS.md", p.name())
			continue
		}
		for _, imported := range p.Imports {
			inner, ours := strings.CutPrefix(imported, module)
			if ours && !slices.Contains(may, inner) && !(slices.Contains(may, "everything") && !strings.HasPrefix(inner, "cmd/")) {
				t.Errorf("%s imports %s, which the table of DEVELOPERS.md does not allow", p.name(), inner)
			}
		}
	}
	for name := range allowed {
		if !slices.ContainsFunc(packages, func(p listed) bool { return p.name() == name }) {
			t.Errorf("DEVELOPERS.md has a row for %s, and there is no such package", name)
		}
	}
}

// parsed is a file of the program (not of its tests) with its imports.
type parsed struct {
	name string // within the project
	pkg  string
	file *ast.File
}

func parseAll(t *testing.T) []parsed {
	t.Helper()
	var list []parsed
	for _, p := range listPackages(t) {
		for _, name := range p.GoFiles {
			file, err := parser.ParseFile(token.NewFileSet(), filepath.Join(p.Dir, name), nil, 0)
			if err != nil {
				t.Fatal(err)
			}
			list = append(list, parsed{p.name() + "/" + name, p.name(), file})
		}
	}
	return list
}

func TestLibrariesComeInAtTheirDoors(t *testing.T) {
	doors := tableRows(t, "library")
	used := map[string]bool{}
	for _, f := range parseAll(t) {
		for _, spec := range f.file.Imports {
			path, _ := strconv.Unquote(spec.Path.Value)
			if host, _, _ := strings.Cut(path, "/"); !strings.Contains(host, ".") || strings.HasPrefix(path, module) {
				continue
			}
			library := ""
			for name := range doors {
				if path == name || strings.HasPrefix(path, name+"/") {
					library = name
				}
			}
			if !slices.Contains(doors[library], f.pkg) && !slices.Contains(doors[library], f.name) {
				t.Errorf("%s imports %s, which the table of DEVELOPERS.md does not allow", f.name, path)
			}
			used[library] = true
		}
	}
	for library := range doors {
		if !used[library] {
			t.Errorf("DEVELOPERS.md has a row for %s, and nothing uses it", library)
		}
	}
}

// outward is what reaches out of the program: it prints, exits, reads flags, the
// environment or the clock.
var outward = map[string]*regexp.Regexp{
	"fmt":     regexp.MustCompile(`^Print`),
	"log":     regexp.MustCompile(`.`),
	"flag":    regexp.MustCompile(`.`),
	"os":      regexp.MustCompile(`^(Std.*|Exit|Args|(Lookup|Get)env|Environ|ExpandEnv)$`),
	"time":    regexp.MustCompile(`^(Now|Since|Until|After|Tick|Sleep|NewTimer|NewTicker|Local)$`),
	"builtin": regexp.MustCompile(`^print(ln)?$`),
}

// allowedOutward are the few places in cmd/budstick where it happens.
var allowedOutward = map[string][]string{
	"cmd/budstick/clock.go": {"time.Now", "time.NewTicker", "time.NewTimer"},
	"cmd/budstick/main.go":  {"os.Args", "os.Stdin", "os.Stdout", "os.Stderr", "os.Exit", "os.Getenv"},
}

func TestOnlyTheCommandReachesOut(t *testing.T) {
	for _, f := range parseAll(t) {
		ast.Inspect(f.file, func(n ast.Node) bool {
			pkg, name := "", ""
			switch n := n.(type) {
			case *ast.SelectorExpr:
				if x, ok := n.X.(*ast.Ident); ok {
					pkg, name = x.Name, n.Sel.Name
				}
			case *ast.CallExpr:
				if x, ok := n.Fun.(*ast.Ident); ok {
					pkg, name = "builtin", x.Name
				}
			}
			if re := outward[pkg]; re != nil && re.MatchString(name) && !slices.Contains(allowedOutward[f.name], pkg+"."+name) {
				t.Errorf("%s uses %s.%s", f.name, pkg, name)
			}
			return true
		})
	}
}

// Only term.go writes to the streams of a terminal.
func TestOnlyTermTouchesTheStreams(t *testing.T) {
	for _, f := range parseAll(t) {
		if f.pkg != "cmd/budstick" || f.name == "cmd/budstick/term.go" {
			continue
		}
		ast.Inspect(f.file, func(n ast.Node) bool {
			if s, ok := n.(*ast.SelectorExpr); ok && s.Sel.Name == "out" {
				if x, ok := s.X.(*ast.SelectorExpr); ok && (x.Sel.Name == "data" || x.Sel.Name == "talk") {
					t.Errorf("%s uses %s.%s", f.name, x.Sel.Name, s.Sel.Name)
				}
			}
			return true
		})
	}
}
