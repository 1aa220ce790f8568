package pedigree

import "slices"

// birthOrder gives the positions in up so that parents stand before their
// seedlings and clones, each as late as that allows, so that few stand at any
// place with seedlings still to come (Kahn's topological sort, begun at the
// youngest and turned round). Those in a loop, and their ancestors, are left
// out.
func birthOrder(up []cross) []int32 {
	toCome := make([]int32, len(up)) // seedlings that aren't in order yet
	for _, from := range up {
		for _, parent := range from {
			if parent != unknown {
				toCome[parent]++
			}
		}
	}
	var ready []int32
	for i, seedlings := range toCome {
		if seedlings == 0 {
			ready = append(ready, int32(i))
		}
	}
	order := make([]int32, 0, len(up))
	for len(ready) > 0 {
		last := len(ready) - 1
		youngest := ready[last]
		ready = ready[:last]
		order = append(order, youngest)
		for _, parent := range up[youngest] {
			if parent == unknown {
				continue
			}
			if toCome[parent]--; toCome[parent] == 0 {
				ready = append(ready, parent)
			}
		}
	}
	slices.Reverse(order)
	return order
}

// renumbered gives each known parent the number that numbers has for it.
func (c cross) renumbered(numbers []int32) cross {
	for side, parent := range c {
		if parent != unknown {
			c[side] = numbers[parent]
		}
	}
	return c
}

// ancestors cuts the pedigree down to genotypes and what they descend from,
// numbered anew in an order of birth of their own. It gives the part and the
// new numbers of genotypes.
func (p *Pedigree) ancestors(genotypes []int32) (line []cross, renumbered []int32) {
	wanted := make([]bool, len(p.cross))
	for _, g := range genotypes {
		wanted[g] = true
	}
	for g, parents := range slices.Backward(p.cross) {
		for _, parent := range parents {
			if wanted[g] && parent != unknown {
				wanted[parent] = true
			}
		}
	}
	numbers := make([]int32, len(p.cross))
	var part []cross
	for g, parents := range p.cross {
		if wanted[g] {
			numbers[g] = int32(len(part))
			part = append(part, parents.renumbered(numbers))
		}
	}
	line = make([]cross, len(part))
	place := make([]int32, len(part))
	for at, i := range birthOrder(part) {
		place[i] = int32(at)
		line[at] = part[i].renumbered(place)
	}
	renumbered = make([]int32, len(genotypes))
	for i, g := range genotypes {
		renumbered[i] = place[numbers[g]]
	}
	return line, renumbered
}
