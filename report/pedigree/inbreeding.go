package pedigree

// widestTable is the most rows of a table of coancestry that inbreeding keeps
// at a time: 72 MB of them.
const widestTable = 3000

// inbreeding reckons F for every genotype of line, oldest first: the
// coancestry of its parents. Two ways lead there. The table of those that have
// seedlings still to come is quick for deep lines of few plants; where there
// are too many of those, a walk through the ancestors of each cross needs
// memory for none of their pairs.
func inbreeding(line []cross) []float64 {
	youngest := youngestSeedlings(line)
	if width := widest(line, youngest); width <= widestTable {
		return byTable(line, youngest, width)
	}
	return byWalk(line)
}

// youngestSeedlings gives the last seedling of each genotype, or unknown.
func youngestSeedlings(line []cross) []int32 {
	youngest := make([]int32, len(line))
	for i, parents := range line {
		youngest[i] = unknown
		for _, parent := range parents {
			if parent != unknown {
				youngest[parent] = int32(i)
			}
		}
	}
	return youngest
}

// samplingVariances is the diagonal of D: the part of the additive variance of
// each seedling that its parents leave open, 1 - (1 + F)/4 for each parent
// that is known (Henderson 1976; Quaas 1976, Biometrics 32:949). f is the
// inbreeding of line.
func samplingVariances(line []cross, f []float64) []float64 {
	d := make([]float64, len(line))
	for i, parents := range line {
		d[i] = samplingVariance(parents, f)
	}
	return d
}

func samplingVariance(parents cross, f []float64) float64 {
	d := 1.0
	for _, parent := range parents {
		if parent != unknown {
			d -= (1 + f[parent]) / 4
		}
	}
	return d
}
