package pedigree

import "fmt"

// maxTable is the most names that Coancestry takes: its table grows with the
// square of their number, and this many fill 128 MB.
const maxTable = 4000

// Inbreeding is the coefficient of inbreeding F of each of names, in their
// order: the probability that the two alleles that a plant carries at a locus
// are copies of one allele of an ancestor (Malécot 1948). It is the coancestry
// of the parents, and 0 where one of them is unknown. It runs from 0 to 1.
//
// The error says which name isn't in the pedigree.
func (p *Pedigree) Inbreeding(names ...string) ([]float64, error) {
	genotypes, err := p.find(names)
	if err != nil {
		return nil, err
	}
	line, genotypes := p.ancestors(genotypes)
	inbred := inbreeding(line)
	f := make([]float64, len(names))
	for i, g := range genotypes {
		f[i] = inbred[g]
	}
	return f, nil
}

// Coancestry is the table of the coefficients of coancestry among names, rows
// and columns in their order: the probability that an allele drawn from one
// and an allele drawn from the other at the same locus are copies of one
// allele of an ancestor (Malécot 1948). It is symmetric. Of a plant with
// itself or with its clone it is (1 + F) / 2; it is half the numerator
// relationship of animal breeding.
//
// The error says which name isn't in the pedigree, or that there are more than
// 4000 of them.
//
// Method: with A the numerator relationships, T the shares that pass from
// ancestor to descendant and D the variances of Mendelian sampling, A = T D T'
// (Henderson 1976, Biometrics 32:69). One column of A is then two walks over
// the pedigree, up through T' and down through T, and the table is never made
// whole (Colleau 2002, Genetics Selection Evolution 34:409).
func (p *Pedigree) Coancestry(names ...string) ([][]float64, error) {
	if len(names) > maxTable {
		return nil, fmt.Errorf("a table of coancestry for %d varieties is too large: name at most %d", len(names), maxTable)
	}
	genotypes, err := p.find(names)
	if err != nil {
		return nil, err
	}
	line, genotypes := p.ancestors(genotypes)
	sampling := samplingVariances(line, inbreeding(line))
	table := make([][]float64, len(names))
	for i := range table {
		table[i] = make([]float64, len(names))
	}
	// One column a genotype, and of each pair the column of the older one,
	// so that the table hangs neither on the order of the names nor on that of
	// the map.
	places := make(map[int32][]int, len(names))
	for i, g := range genotypes {
		places[g] = append(places[g], i)
	}
	column := make([]float64, len(line))
	for g, rows := range places {
		relationships(column, g, line, sampling)
		for other, h := range genotypes {
			if h < g {
				continue
			}
			for _, row := range rows {
				table[row][other] = column[h] / 2
				table[other][row] = column[h] / 2
			}
		}
	}
	return table, nil
}

// relationships fills column with the numerator relationships between g and
// all of line.
func relationships(column []float64, g int32, line []cross, sampling []float64) {
	clear(column)
	column[g] = 1
	for j := g; j >= 0; j-- {
		half := column[j] / 2
		if half == 0 {
			continue
		}
		for _, parent := range line[j] {
			if parent != unknown {
				column[parent] += half
			}
		}
		column[j] *= sampling[j]
	}
	for j, parents := range line {
		for _, parent := range parents {
			if parent != unknown {
				column[j] += column[parent] / 2
			}
		}
	}
}

// find looks up the genotypes of names.
func (p *Pedigree) find(names []string) ([]int32, error) {
	genotypes := make([]int32, len(names))
	for i, name := range names {
		g, ok := p.genotype[name]
		if !ok {
			return nil, fmt.Errorf("no variety %q in the pedigree: declare it, or name another", name)
		}
		genotypes[i] = g
	}
	return genotypes, nil
}
