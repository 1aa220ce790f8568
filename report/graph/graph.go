// Package graph lays out a drawing of what came from what: in layers, so that
// every step leads from left to right, with the lines as straight and as
// seldom crossing as is cheap to reach. It knows sizes and places only; what is
// drawn there is for others.
//
// The way is that of Sugiyama, Tagawa and Toda (1981, IEEE Transactions on
// Systems, Man and Cybernetics 11:109): layers by the longest path, the order
// within them by barycentres, then places. Nothing recurses, so a line of
// descent may be of any length.
package graph

// A Node is a box of a size, in any unit.
type Node struct{ Width, Height float64 }

// An Edge leads from one node to another, by their indices.
type Edge struct{ From, To int }

// Gaps are the least distances between layers and between the boxes of one.
type Gaps struct{ Layer, Node float64 }

// A Point is a place; Y runs down.
type Point struct{ X, Y float64 }

// A Layout says where everything goes, in a rectangle that begins at 0, 0.
type Layout struct {
	Width, Height float64
	// Nodes are the middles of the boxes.
	Nodes []Point
	// Edges are the places that each edge runs through, from the side of its
	// first node to that of its last. It is level from there to the end of the
	// layer, which wider boxes may reach, and then in every second stretch: where
	// it passes a layer, and at last where it comes to its node. So it slopes
	// between layers only, where no box is. An edge that closes a loop runs from
	// right to left; one from a node to itself runs nowhere.
	Edges [][]Point
}

// Lay lays out a graph. The same graph always gives the same layout, in time
// that grows with the edges times the layers that they span.
func Lay(nodes []Node, edges []Edge, gaps Gaps) Layout {
	g := layered{nodes: nodes, edges: edges, gaps: gaps}
	g.orient()
	g.layer()
	g.thread()
	g.order()
	g.place()
	return g.layout()
}

// layered is a layout under construction. Slots are the nodes, then one for
// every layer that an edge passes.
type layered struct {
	nodes []Node
	edges []Edge
	gaps  Gaps

	back  []bool // the edge closes a loop and is turned round
	layOf []int  // the layer of a slot
	path  [][]int
	// up and down are the neighbours of a slot in the layers before and after.
	up, down [][]int
	layers   [][]int // slots, in order
	at       []int   // the place of a slot within its layer
	y        []float64
}

// ends are the edge's nodes from the earlier to the later layer.
func (g *layered) ends(i int) (from, to int) {
	e := g.edges[i]
	if g.back[i] {
		return e.To, e.From
	}
	return e.From, e.To
}

func (g *layered) height(slot int) float64 {
	if slot < len(g.nodes) {
		return g.nodes[slot].Height
	}
	return 0
}
