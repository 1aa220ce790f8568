package graph

import (
	"cmp"
	"slices"
)

// sweeps is how often the layers are gone through, to and fro.
const sweeps = 12

// order puts the slots of each layer in an order with few crossings: each by
// the mean place of its neighbours in the layer before and, on the way back, in
// the layer after. The best order met is kept.
func (g *layered) order() {
	g.at = make([]int, len(g.layOf))
	g.beginOrder()
	best, fewest := g.snapshot(), g.crossings()
	for sweep := 0; sweep < sweeps && fewest > 0; sweep++ {
		if sweep%2 == 0 {
			for l := 1; l < len(g.layers); l++ {
				g.sortLayer(l, g.up)
			}
		} else {
			for l := len(g.layers) - 2; l >= 0; l-- {
				g.sortLayer(l, g.down)
			}
		}
		if n := g.crossings(); n < fewest {
			best, fewest = g.snapshot(), n
		}
	}
	for l := range best {
		g.setLayer(l, best[l])
	}
}

// beginOrder places slots in the order in which a walk in depth meets them, so
// that what hangs together begins side by side, and a tree without crossings.
func (g *layered) beginOrder() {
	met := make([]bool, len(g.layOf))
	begun := make([][]int, len(g.layers))
	for root := range g.nodes {
		for stack := []int{root}; len(stack) > 0; {
			v := stack[len(stack)-1]
			stack = stack[:len(stack)-1]
			if met[v] {
				continue
			}
			met[v] = true
			begun[g.layOf[v]] = append(begun[g.layOf[v]], v)
			for _, next := range [][]int{g.up[v], g.down[v]} {
				for i := len(next) - 1; i >= 0; i-- {
					stack = append(stack, next[i])
				}
			}
		}
	}
	for l := range begun {
		g.setLayer(l, begun[l])
	}
}

func (g *layered) setLayer(l int, slots []int) {
	g.layers[l] = slots
	for i, v := range slots {
		g.at[v] = i
	}
}

func (g *layered) snapshot() [][]int {
	out := make([][]int, len(g.layers))
	for l := range g.layers {
		out[l] = slices.Clone(g.layers[l])
	}
	return out
}

// sortLayer orders a layer by the mean places of neighbours; slots without any
// stay where they are.
func (g *layered) sortLayer(l int, neighbours [][]int) {
	mean := map[int]float64{}
	var moving []int
	for _, v := range g.layers[l] {
		if len(neighbours[v]) == 0 {
			continue
		}
		sum := 0
		for _, w := range neighbours[v] {
			sum += g.at[w]
		}
		mean[v] = float64(sum) / float64(len(neighbours[v]))
		moving = append(moving, v)
	}
	slices.SortStableFunc(moving, func(a, b int) int { return cmp.Compare(mean[a], mean[b]) })
	slots := slices.Clone(g.layers[l])
	for i, v := range slots {
		if len(neighbours[v]) > 0 {
			slots[i], moving = moving[0], moving[1:]
		}
	}
	g.setLayer(l, slots)
}

// crossings counts the pairs of lines that cross between neighbouring layers:
// the inversions among the later ends, in the order of the earlier ones (Barth,
// Mutzel and Jünger 2004, Journal of Graph Algorithms and Applications 8:179).
func (g *layered) crossings() int {
	total := 0
	for l := range len(g.layers) - 1 {
		counts := make([]int, len(g.layers[l+1])+1) // a tree of sums, by Fenwick
		seen := 0
		for _, v := range g.layers[l] {
			ends := make([]int, len(g.down[v]))
			for i, w := range g.down[v] {
				ends[i] = g.at[w]
			}
			slices.Sort(ends)
			for _, end := range ends {
				upTo := 0
				for i := end + 1; i > 0; i -= i & -i {
					upTo += counts[i]
				}
				total += seen - upTo
			}
			for _, end := range ends {
				for i := end + 1; i < len(counts); i += i & -i {
					counts[i]++
				}
			}
			seen += len(ends)
		}
	}
	return total
}
