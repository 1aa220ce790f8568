package graph

import (
	"math"
	"math/rand/v2"
	"reflect"
	"testing"
	"time"

	"pgregory.net/rapid"
)

var gaps = Gaps{Layer: 40, Node: 10}

// drawn is a graph with loops, long edges, doubled edges and edges to itself.
func drawn(t *rapid.T) ([]Node, []Edge) {
	nodes := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Node {
		return Node{rapid.Float64Range(20, 200).Draw(t, "width"), rapid.Float64Range(10, 60).Draw(t, "height")}
	}), 1, 30).Draw(t, "nodes")
	end := rapid.IntRange(0, len(nodes)-1)
	edges := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Edge {
		return Edge{end.Draw(t, "from"), end.Draw(t, "to")}
	}), 0, 60).Draw(t, "edges")
	return nodes, edges
}

const slack = 1e-6

// box is where a node lies.
func (l Layout) box(v int, n Node) (left, top, right, foot float64) {
	p := l.Nodes[v]
	return p.X - n.Width/2, p.Y - n.Height/2, p.X + n.Width/2, p.Y + n.Height/2
}

func TestBoxesKeepApartAndInside(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		nodes, edges := drawn(t)
		l := Lay(nodes, edges, gaps)
		for v, n := range nodes {
			left, top, right, foot := l.box(v, n)
			if left < -slack || top < -slack || right > l.Width+slack || foot > l.Height+slack {
				t.Errorf("box %d at %v sticks out of %v by %v", v, l.Nodes[v], l.Width, l.Height)
			}
			for w := range v {
				left2, top2, right2, foot2 := l.box(w, nodes[w])
				across := min(right, right2) - max(left, left2)
				along := max(top, top2) - min(foot, foot2) // the gap between them
				if across > slack && along < gaps.Node-slack {
					t.Errorf("boxes %d and %d are %v apart", w, v, along)
				}
			}
		}
	})
}

// Lines lead from side to side and from left to right, or the other way round
// where they close a loop; and where they pass a layer no box is in their way.
func TestLinesLeadFromBoxToBox(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		nodes, edges := drawn(t)
		l := Lay(nodes, edges, gaps)
		for i, e := range edges {
			points := l.Edges[i]
			if e.From == e.To {
				if points != nil {
					t.Errorf("edge %d from a node to itself runs %v", i, points)
				}
				continue
			}
			first, last := points[0], points[len(points)-1]
			_, _, fromRight, _ := l.box(e.From, nodes[e.From])
			toLeft, _, _, _ := l.box(e.To, nodes[e.To])
			if forward := first.X < last.X; forward && (math.Abs(first.X-fromRight) > slack || math.Abs(last.X-toLeft) > slack) {
				t.Errorf("edge %d runs %v, not from %v to %v", i, points, fromRight, toLeft)
			}
			for k := 1; k < len(points); k++ {
				if (points[k].X-points[k-1].X)*(last.X-first.X) < -slack*math.Abs(last.X-first.X) {
					t.Errorf("edge %d turns back: %v", i, points)
				}
			}
			for k := 1; k < len(points); k++ {
				from, to := points[k-1], points[k]
				left, right := min(from.X, to.X), max(from.X, to.X)
				foot, top := max(from.Y, to.Y), min(from.Y, to.Y)
				if k%2 == 1 && from.Y != to.Y {
					t.Errorf("edge %d is not level at %v", i, from)
				}
				if k%2 == 1 && k > 1 && k < len(points)-1 { // it passes a layer
					top, foot = top-gaps.Node, foot+gaps.Node
				}
				for v, n := range nodes {
					l, t0, r, f := l.box(v, n)
					if max(l, left) < min(r, right)-slack && max(t0, top) < min(f, foot)-slack {
						t.Errorf("edge %d runs through box %d or too near", i, v)
					}
				}
			}
		}
	})
}

// Without loops every step leads to the right.
func TestStepsLeadRight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		nodes, edges := drawn(t)
		for i, e := range edges {
			edges[i] = Edge{min(e.From, e.To), max(e.From, e.To)}
		}
		l := Lay(nodes, edges, gaps)
		for i, e := range edges {
			if p := l.Edges[i]; e.From != e.To && p[len(p)-1].X-p[0].X < gaps.Layer-slack {
				t.Errorf("edge %d runs %v", i, p)
			}
		}
	})
}

func TestSameGraphSameLayout(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		nodes, edges := drawn(t)
		if !reflect.DeepEqual(Lay(nodes, edges, gaps), Lay(nodes, edges, gaps)) {
			t.Error("two layouts")
		}
	})
}

func boxes(n int) []Node {
	nodes := make([]Node, n)
	for i := range nodes {
		nodes[i] = Node{100, 30}
	}
	return nodes
}

// A tree can be drawn without crossings, and is, whatever the order in which it
// is told.
func TestTreesDoNotCross(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 60).Draw(t, "nodes")
		g := layered{nodes: boxes(n), gaps: gaps}
		for v := 1; v < n; v++ {
			g.edges = append(g.edges, Edge{rapid.IntRange(0, v-1).Draw(t, "parent"), v})
		}
		g.edges = rapid.Permutation(g.edges).Draw(t, "order")
		g.orient()
		g.layer()
		g.thread()
		g.order()
		if c := g.crossings(); c > 0 {
			t.Errorf("%d crossings", c)
		}
	})
}

// Going through the layers is worth it: on graphs that can't be drawn without
// crossings it takes away a good part of those of the beginning.
func TestSweepsTakeCrossingsAway(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	before, after := 0, 0
	for range 40 {
		g := layered{nodes: boxes(40), gaps: gaps}
		for v := 1; v < 40; v++ {
			g.edges = append(g.edges, Edge{rnd.IntN(v), v}, Edge{rnd.IntN(v), v})
		}
		g.orient()
		g.layer()
		g.thread()
		g.at = make([]int, len(g.layOf))
		g.beginOrder()
		before += g.crossings()
		g.order()
		after += g.crossings()
	}
	if after > before*3/4 {
		t.Errorf("%d crossings before, %d after", before, after)
	}
}

func TestCrossingsAreCounted(t *testing.T) {
	// The complete graph between two layers of a and b nodes has
	// a(a-1)/2 · b(b-1)/2 crossings in any order.
	for a := 1; a < 6; a++ {
		for b := 1; b < 6; b++ {
			g := layered{nodes: boxes(a + b), gaps: gaps}
			for v := range a {
				for w := range b {
					g.edges = append(g.edges, Edge{v, a + w})
				}
			}
			g.orient()
			g.layer()
			g.thread()
			g.order()
			if got, want := g.crossings(), a*(a-1)/2*b*(b-1)/2; got != want {
				t.Errorf("%d by %d: %d crossings, want %d", a, b, got, want)
			}
		}
	}
}

func TestALineIsStraight(t *testing.T) {
	edges := []Edge{{0, 1}, {1, 2}, {2, 3}}
	l := Lay(boxes(4), edges, gaps)
	for v, p := range l.Nodes {
		if want := (Point{50 + 140*float64(v), 15}); p != want {
			t.Errorf("node %d at %v, want %v", v, p, want)
		}
	}
	if l.Width != 4*100+3*40 || l.Height != 30 {
		t.Errorf("%v by %v", l.Width, l.Height)
	}
}

// A mother stands level with the middle of what came of her.
func TestParentsStandInTheMiddle(t *testing.T) {
	l := Lay(boxes(4), []Edge{{0, 1}, {0, 2}, {0, 3}}, gaps)
	if want := (l.Nodes[1].Y + l.Nodes[3].Y) / 2; math.Abs(l.Nodes[0].Y-want) > slack || math.Abs(l.Nodes[2].Y-want) > slack {
		t.Errorf("%v", l.Nodes)
	}
}

func TestRising(t *testing.T) {
	for _, c := range []struct{ wishes, weights, want []float64 }{
		{nil, nil, []float64{}},
		{[]float64{1, 2, 2, 5}, []float64{1, 1, 1, 1}, []float64{1, 2, 2, 5}},
		{[]float64{3, 1}, []float64{1, 1}, []float64{2, 2}},
		{[]float64{3, 1}, []float64{1, 3}, []float64{1.5, 1.5}},
		{[]float64{1, 5, 4, 0, 9}, []float64{1, 1, 1, 1, 1}, []float64{1, 3, 3, 3, 9}},
	} {
		if got := rising(c.wishes, c.weights); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%v by %v: %v, want %v", c.wishes, c.weights, got, c.want)
		}
	}
}

func TestNothingAndLoops(t *testing.T) {
	if l := Lay(nil, nil, gaps); l.Width != 0 || l.Height != 0 {
		t.Errorf("nothing is %v by %v", l.Width, l.Height)
	}
	l := Lay(boxes(2), []Edge{{0, 1}, {1, 0}, {1, 1}}, gaps)
	if there, back := l.Edges[0], l.Edges[1]; there[0].X > there[1].X || back[0].X < back[1].X || l.Edges[2] != nil {
		t.Errorf("%v", l.Edges)
	}
}

// A line of 10,000 generations is laid out in no time, and so is a mother with
// 10,000 children.
func TestLargeGraphs(t *testing.T) {
	const n = 10_000
	var chain, fan []Edge
	for v := 1; v < n; v++ {
		chain, fan = append(chain, Edge{v - 1, v}), append(fan, Edge{0, v})
	}
	for name, edges := range map[string][]Edge{"chain": chain, "fan": fan} {
		start := time.Now()
		l := Lay(boxes(n), edges, gaps)
		if took := time.Since(start); took > 10*time.Second {
			t.Errorf("%s: %v", name, took)
		}
		if len(l.Nodes) != n {
			t.Errorf("%s: %d nodes", name, len(l.Nodes))
		}
	}
}

func BenchmarkLay(b *testing.B) {
	var edges []Edge
	for v := 1; v < 200; v++ {
		edges = append(edges, Edge{v * 7 % v / 2, v}, Edge{v / 3, v})
	}
	for b.Loop() {
		Lay(boxes(200), edges, gaps)
	}
}
