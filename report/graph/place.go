package graph

import (
	"math"
	"slices"
)

// settlings is how often the layers are drawn towards their neighbours.
const settlings = 16

// place gives each slot a height: as near as can be to the middle of its
// neighbours, without touching the others of its layer. Lines that pass through
// layers pull hardest, so that long ones come out straight (Gansner, Koutsofios,
// North and Vo 1993, IEEE Transactions on Software Engineering 19:214).
func (g *layered) place() {
	g.y = make([]float64, len(g.layOf))
	for l := range g.layers {
		g.settle(l, nil)
	}
	for i := range settlings {
		if i%2 == 0 {
			for l := 1; l < len(g.layers); l++ {
				g.settle(l, [][][]int{g.up})
			}
		} else {
			for l := len(g.layers) - 2; l >= 0; l-- {
				g.settle(l, [][][]int{g.down})
			}
		}
	}
	for l := range g.layers {
		g.settle(l, [][][]int{g.up, g.down})
	}
}

// settle moves a layer, keeping its order and its gaps, to where the sum of the
// squared distances from the wished places is least.
func (g *layered) settle(l int, towards [][][]int) {
	wishes := make([]float64, len(g.layers[l]))
	weights := make([]float64, len(g.layers[l]))
	below := make([]float64, len(g.layers[l])) // least distance from the first
	for i, v := range g.layers[l] {
		if i > 0 {
			u := g.layers[l][i-1]
			below[i] = below[i-1] + (g.height(u)+g.height(v))/2 + g.gaps.Node
		}
		wish, weight := 0.0, 0.0
		for _, neighbours := range towards {
			for _, w := range neighbours[v] {
				pull := g.pull(v, w)
				wish += pull * g.y[w]
				weight += pull
			}
		}
		if weight == 0 {
			wish, weight = g.y[v]*1e-3, 1e-3
		}
		wishes[i], weights[i] = wish/weight-below[i], weight
	}
	for i, y := range rising(wishes, weights) {
		g.y[g.layers[l][i]] = y + below[i]
	}
}

func (g *layered) pull(a, b int) float64 {
	switch passing := len(g.nodes); {
	case a >= passing && b >= passing:
		return 8
	case a >= passing || b >= passing:
		return 2
	}
	return 1
}

// rising is the sequence that never falls and is nearest to the wishes by
// weighted squares, by pooling neighbours that are out of order (Ayer et al.
// 1955, Annals of Mathematical Statistics 26:641).
func rising(wishes, weights []float64) []float64 {
	type pool struct {
		mean, weight float64
		size         int
	}
	var pools []pool
	for i := range wishes {
		pools = append(pools, pool{wishes[i], weights[i], 1})
		for k := len(pools) - 1; k > 0 && pools[k-1].mean > pools[k].mean; k-- {
			a, b := pools[k-1], pools[k]
			weight := a.weight + b.weight
			pools[k-1] = pool{(a.mean*a.weight + b.mean*b.weight) / weight, weight, a.size + b.size}
			pools = pools[:k]
		}
	}
	out := make([]float64, 0, len(wishes))
	for _, p := range pools {
		for range p.size {
			out = append(out, p.mean)
		}
	}
	return out
}

// layout turns layers and heights into places, with the top left corner at the
// beginning.
func (g *layered) layout() Layout {
	out := Layout{Nodes: make([]Point, len(g.nodes)), Edges: make([][]Point, len(g.edges))}
	left, wide := make([]float64, len(g.layers)), make([]float64, len(g.layers))
	for v, n := range g.nodes {
		wide[g.layOf[v]] = max(wide[g.layOf[v]], n.Width)
	}
	for l := range g.layers {
		if l > 0 {
			left[l] = left[l-1] + wide[l-1] + g.gaps.Layer
		}
	}
	if len(g.nodes) == 0 {
		return out
	}
	top, foot := math.Inf(1), math.Inf(-1)
	for slot, y := range g.y {
		top, foot = min(top, y-g.height(slot)/2), max(foot, y+g.height(slot)/2)
	}
	last := len(g.layers) - 1
	out.Width, out.Height = left[last]+wide[last], foot-top
	for v := range g.nodes {
		l := g.layOf[v]
		out.Nodes[v] = Point{left[l] + wide[l]/2, g.y[v] - top}
	}
	for i := range g.edges {
		from, to := g.ends(i)
		if from == to {
			continue
		}
		first, last := g.layOf[from], g.layOf[to]
		points := []Point{{out.Nodes[from].X + g.nodes[from].Width/2, out.Nodes[from].Y}, {left[first] + wide[first], out.Nodes[from].Y}}
		for _, slot := range g.path[i] {
			l := g.layOf[slot]
			points = append(points, Point{left[l], g.y[slot] - top}, Point{left[l] + wide[l], g.y[slot] - top})
		}
		points = append(points, Point{left[last], out.Nodes[to].Y}, Point{out.Nodes[to].X - g.nodes[to].Width/2, out.Nodes[to].Y})
		if g.back[i] {
			slices.Reverse(points)
		}
		out.Edges[i] = points
	}
	return out
}
