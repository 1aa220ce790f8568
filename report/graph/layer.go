package graph

// orient turns round the edges that close a loop: those that lead back to a
// node which a walk in depth has entered and not left.
func (g *layered) orient() {
	g.back = make([]bool, len(g.edges))
	out := make([][]int, len(g.nodes))
	for i, e := range g.edges {
		out[e.From] = append(out[e.From], i)
	}
	const fresh, open, done = 0, 1, 2
	state := make([]int, len(g.nodes))
	for root := range g.nodes {
		if state[root] != fresh {
			continue
		}
		state[root] = open
		for stack := []int{root}; len(stack) > 0; {
			at := stack[len(stack)-1]
			if len(out[at]) == 0 {
				state[at] = done
				stack = stack[:len(stack)-1]
				continue
			}
			i := out[at][0]
			out[at] = out[at][1:]
			switch to := g.edges[i].To; state[to] {
			case open:
				g.back[i] = true
			case fresh:
				state[to] = open
				stack = append(stack, to)
			}
		}
	}
}

// layer gives each node a layer by the longest path to it, and then moves it as
// near to what comes after as it goes, where that shortens more edges than it
// lengthens.
func (g *layered) layer() {
	in, out := make([][]int, len(g.nodes)), make([][]int, len(g.nodes))
	for i := range g.edges {
		if from, to := g.ends(i); from != to {
			out[from] = append(out[from], to)
			in[to] = append(in[to], from)
		}
	}
	g.layOf = make([]int, len(g.nodes))
	waits := make([]int, len(g.nodes))
	var order []int
	for v := range g.nodes {
		if waits[v] = len(in[v]); waits[v] == 0 {
			order = append(order, v)
		}
	}
	for i := 0; i < len(order); i++ {
		for _, w := range out[order[i]] {
			g.layOf[w] = max(g.layOf[w], g.layOf[order[i]]+1)
			if waits[w]--; waits[w] == 0 {
				order = append(order, w)
			}
		}
	}
	for i := len(order) - 1; i >= 0; i-- {
		v := order[i]
		if len(out[v]) == 0 || len(out[v]) < len(in[v]) {
			continue
		}
		least := g.layOf[out[v][0]]
		for _, w := range out[v] {
			least = min(least, g.layOf[w])
		}
		g.layOf[v] = least - 1
	}
}

// thread gives an edge a slot in every layer that it passes.
func (g *layered) thread() {
	g.up, g.down = make([][]int, len(g.nodes)), make([][]int, len(g.nodes))
	g.path = make([][]int, len(g.edges))
	most := 0
	for _, l := range g.layOf {
		most = max(most, l)
	}
	for i := range g.edges {
		from, to := g.ends(i)
		if from == to {
			continue
		}
		last := from
		for l := g.layOf[from] + 1; l < g.layOf[to]; l++ {
			slot := len(g.layOf)
			g.layOf = append(g.layOf, l)
			g.up, g.down = append(g.up, nil), append(g.down, nil)
			g.join(last, slot)
			g.path[i] = append(g.path[i], slot)
			last = slot
		}
		g.join(last, to)
	}
	g.layers = make([][]int, most+1)
	for slot, l := range g.layOf {
		g.layers[l] = append(g.layers[l], slot)
	}
}

func (g *layered) join(from, to int) {
	g.down[from] = append(g.down[from], to)
	g.up[to] = append(g.up[to], from)
}
