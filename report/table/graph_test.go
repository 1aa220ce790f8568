package table

import (
	"bytes"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"golang.org/x/text/language"
	"gonum.org/v1/gonum/graph/formats/dot"
	"gonum.org/v1/gonum/graph/formats/dot/ast"
	"pgregory.net/rapid"
)

func graphs() *rapid.Generator[Graph] {
	return rapid.Custom(func(t *rapid.T) Graph {
		g := Graph{Title: "T" + hostileText().Draw(t, "title"), Desc: "D", Lines: []string{"scion", hostileText().Draw(t, "line")}}
		for range rapid.IntRange(1, 12).Draw(t, "nodes") {
			g.Nodes = append(g.Nodes, Node{hostileText().Draw(t, "label"), hostileText().Draw(t, "detail"), rapid.Bool().Draw(t, "focus"), rapid.Bool().Draw(t, "outside")})
		}
		end := rapid.IntRange(0, len(g.Nodes)-1)
		for range rapid.IntRange(0, 20).Draw(t, "edges") {
			g.Edges = append(g.Edges, Edge{end.Draw(t, "from"), end.Draw(t, "to"), rapid.IntRange(0, 1).Draw(t, "kind")})
		}
		return g
	})
}

func graphDoc(g Graph) Doc { return Doc{Name: "lineage", Body: []Block{g}} }

// A reader of the language that is not ours finds every box and every step, with
// the words on them, whatever they are.
func TestDOTIsRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := graphs().Draw(t, "graph")
		var b bytes.Buffer
		if err := WriteDOT(&b, graphDoc(g)); err != nil {
			t.Fatal(err)
		}
		if strings.ContainsRune(b.String(), '\ufffd') {
			t.Skip("the reader takes no replacement character")
		}
		file, err := dot.ParseString(b.String())
		if err != nil {
			t.Fatalf("%v\n%s", err, b.String())
		}
		nodes, edges := map[string]string{}, 0
		for _, s := range file.Graphs[0].Stmts {
			switch s := s.(type) {
			case *ast.NodeStmt:
				nodes[s.Node.ID] = s.Attrs[0].Val
			case *ast.EdgeStmt:
				e := g.Edges[edges]
				if from, to := s.From.String(), s.To.Vertex.String(); from != "n"+strconv.Itoa(e.From) || to != "n"+strconv.Itoa(e.To) {
					t.Errorf("step %d leads from %s to %s, want %v", edges, from, to, e)
				}
				edges++
			}
		}
		if len(nodes) != len(g.Nodes) || edges != len(g.Edges) {
			t.Errorf("%d boxes and %d steps, want %d and %d", len(nodes), edges, len(g.Nodes), len(g.Edges))
		}
		for i, n := range g.Nodes {
			if quoted := nodes["n"+strconv.Itoa(i)]; !strings.HasPrefix(unquoteDOT(quoted), visible(n.Label)) {
				t.Errorf("box %d says %s, want %q", i, quoted, n.Label)
			}
		}
	})
}

// unquoteDOT undoes the two escapes that hold letters which DOT would take for
// its own.
func unquoteDOT(s string) string {
	return strings.NewReplacer(`\\`, `\`, `\"`, `"`, `\n`, "\n").Replace(s[1 : len(s)-1])
}

var (
	boxes = regexp.MustCompile(`<rect class="card`)
	steps = regexp.MustCompile(`<path class="step`)
	sized = regexp.MustCompile(`<svg width="([0-9.]+)" height="([0-9.]+)"`)
)

func TestGraphDrawsAllBoxesAndSteps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := graphs().Draw(t, "graph")
		var b bytes.Buffer
		if err := WriteSVG(&b, g, language.Und); err != nil {
			t.Fatal(err)
		}
		wanted := 0
		for _, e := range g.Edges {
			if e.From != e.To {
				wanted++
			}
		}
		if n := len(boxes.FindAllString(b.String(), -1)); n != len(g.Nodes) {
			t.Errorf("%d boxes, want %d", n, len(g.Nodes))
		}
		if n := len(steps.FindAllString(b.String(), -1)); n != wanted {
			t.Errorf("%d steps, want %d", n, wanted)
		}
		if sized.FindString(b.String()) == "" {
			t.Error("a graph has no size of its own")
		}
	})
}

// Two hundred things go into a drawing that can be scrolled through: no wider
// than a few screens, and its letters as large as everywhere.
func TestTwoHundredThings(t *testing.T) {
	g := Graph{Title: "What came of M7", Desc: "d", Lines: []string{"scion line", "stock"}, Nodes: []Node{{Label: "M7", Focus: true}}}
	for i := 1; i < 200; i++ {
		g.Nodes = append(g.Nodes, Node{Label: "AM" + strconv.Itoa(i), Detail: "Amberlight, grafted 2026-03-02 by whip-and-tongue, Ines"})
		g.Edges = append(g.Edges, Edge{(i - 1) / 4, i, i % 2})
	}
	var b bytes.Buffer
	if err := WriteSVG(&b, g, language.Und); err != nil {
		t.Fatal(err)
	}
	m := sized.FindStringSubmatch(b.String())
	wide, _ := strconv.ParseFloat(m[1], 64)
	high, _ := strconv.ParseFloat(m[2], 64)
	if wide > 1800 || high > 200*80 {
		t.Errorf("%v by %v", wide, high)
	}
}

func TestDOTWantsAGraph(t *testing.T) {
	err := WriteDOT(&bytes.Buffer{}, takeSample())
	if err == nil || !strings.Contains(err.Error(), "the report take has no graph") {
		t.Errorf("%v", err)
	}
}

func TestGraphThatLeadsNowhereIsRefused(t *testing.T) {
	for _, e := range []Edge{{0, 1, 0}, {-1, 0, 0}, {0, 0, 1}} {
		g := Graph{Title: "T", Desc: "D", Nodes: []Node{{Label: "a"}}, Edges: []Edge{e}, Lines: []string{"l"}}
		if WriteSVG(&bytes.Buffer{}, g, language.Und) == nil || WriteDOT(&bytes.Buffer{}, graphDoc(g)) == nil {
			t.Errorf("%v was drawn", e)
		}
	}
}
