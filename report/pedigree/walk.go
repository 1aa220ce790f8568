package pedigree

import "math/bits"

// byWalk reckons inbreeding by a walk through the ancestors of the parents of
// each seedling. Brothers and sisters share theirs.
func byWalk(line []cross) []float64 {
	f := make([]float64, len(line))
	known := make(map[cross]float64)
	walk := newAncestry(line)
	for i, parents := range line {
		if parents[0] != unknown && parents[1] != unknown {
			pair := cross{min(parents[0], parents[1]), max(parents[0], parents[1])}
			coancestry, ok := known[pair]
			if !ok {
				coancestry = walk.coancestry(pair)
				known[pair] = coancestry
			}
			f[i] = coancestry
		}
		walk.sampling[i] = samplingVariance(parents, f)
	}
	return f
}

// ancestry walks through all the ancestors of two genotypes, youngest first.
type ancestry struct {
	line     []cross
	sampling []float64    // D of those that are reckoned so far
	shares   [][2]float64 // T of the two in this walk; 0 between walks
	ahead    []uint64     // the set of ancestors still to visit, a bit each
	waiting  int          // how many are in ahead
}

func newAncestry(line []cross) *ancestry {
	return &ancestry{
		line:     line,
		sampling: make([]float64, len(line)),
		shares:   make([][2]float64, len(line)),
		ahead:    make([]uint64, len(line)/64+1),
	}
}

// coancestry is that of the two of pair, both known. As A = T D T', it is half
// the sum over their ancestors j, themselves among them, of t_aj t_bj D_jj,
// where t_aj is the share of a that comes from j. Only as many steps are taken
// as there are ancestors (the walk of Meuwissen and Luo 1992, Genetics
// Selection Evolution 24:305, who sum the squares of the shares of a seedling;
// the product of those of its parents never takes a difference of numbers that
// are nearly alike).
func (a *ancestry) coancestry(pair cross) float64 {
	a.pass(pair[0], [2]float64{1, 0})
	a.pass(pair[1], [2]float64{0, 1})
	sum := 0.0
	for word := int(max(pair[0], pair[1]) / 64); a.waiting > 0; word-- {
		for a.ahead[word] != 0 {
			bit := bits.Len64(a.ahead[word]) - 1
			a.ahead[word] &^= 1 << bit
			a.waiting--
			j := word*64 + bit
			shares := a.shares[j]
			a.shares[j] = [2]float64{}
			sum += shares[0] * shares[1] * a.sampling[j]
			half := [2]float64{shares[0] / 2, shares[1] / 2}
			for _, parent := range a.line[j] {
				if parent != unknown {
					a.pass(parent, half)
				}
			}
		}
	}
	return sum / 2
}

// pass adds shares to those of to, and sets it ahead.
func (a *ancestry) pass(to int32, shares [2]float64) {
	a.shares[to][0] += shares[0]
	a.shares[to][1] += shares[1]
	word, bit := to/64, uint64(1)<<(to%64)
	if a.ahead[word]&bit == 0 {
		a.ahead[word] |= bit
		a.waiting++
	}
}
