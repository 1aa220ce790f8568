// Package pedigree reckons how close varieties are by descent: the coancestry
// of any two and the inbreeding of any one, from who was raised from whom.
//
// A variety is raised from seed, with a seed parent and a pollen parent of
// which either may be unknown, or it is the same genotype as another: a graft,
// a layer, a cutting, a nucellar seedling, or a sport, whose one mutation
// kinship can't see. All clones of a genotype are counted once. Unknown
// parents are taken as unrelated to everything and to each other, and not
// inbred.
//
// Memory grows with the number of varieties, never with its square, and
// nothing recurses, so neither 100,000 varieties nor a line of descent
// 100,000 generations deep is too much.
package pedigree

import (
	"errors"
	"fmt"
)

// An Individual is one line of a pedigree. Names are compared as they stand,
// byte for byte: whoever reads them folds them first.
type Individual struct {
	Name string

	// The parents of a seedling; "" where one is unknown.
	SeedParent, PollenParent string

	// The variety of which this is the same genotype; then it states no
	// parents of its own.
	CloneOf string
}

// parents names what i comes from, "" where that is unknown.
func (i Individual) parents() [2]string {
	if i.CloneOf != "" {
		return [2]string{i.CloneOf, ""}
	}
	return [2]string{i.SeedParent, i.PollenParent}
}

// A cross holds the numbers of a seed parent and a pollen parent. A clone has
// the number of its source for the first, and nothing for the second.
type cross [2]int32

// unknown stands in a cross where a parent isn't known.
const unknown = -1

// A Pedigree is a checked set of individuals: every parent is there, and none
// is its own ancestor. It never changes, so it may be read by several at once.
type Pedigree struct {
	genotype map[string]int32 // by the name of an individual
	cross    []cross          // by genotype; parents stand before their seedlings
}

// New checks individuals, in whatever order they come, and builds their
// pedigree. The error joins everything that is wrong: a name that is missing
// or stands twice, a parent that isn't among the individuals, a clone that
// states parents, and a *LoopError for each of a set of loops that have no
// individual in common; mending those may show others.
func New(individuals []Individual) (*Pedigree, error) {
	position, errs := positions(individuals)
	up := make([]cross, len(individuals))
	for i, individual := range individuals {
		var err error
		if up[i], err = resolve(individual, position); err != nil {
			errs = append(errs, err)
		}
	}
	order := birthOrder(up)
	for _, loop := range loops(up, order) {
		errs = append(errs, newLoopError(individuals, loop))
	}
	if len(errs) > 0 {
		return nil, errors.Join(errs...)
	}
	return number(individuals, up, order), nil
}

// positions maps each name to its place among individuals.
func positions(individuals []Individual) (map[string]int32, []error) {
	var errs []error
	position := make(map[string]int32, len(individuals))
	for i, individual := range individuals {
		if individual.Name == "" {
			errs = append(errs, fmt.Errorf("variety number %d of the pedigree has no name: give it one", i+1))
			continue
		}
		if _, twice := position[individual.Name]; twice {
			errs = append(errs, fmt.Errorf("%q stands twice in the pedigree: keep one of the two", individual.Name))
			continue
		}
		position[individual.Name] = int32(i)
	}
	return position, errs
}

// resolve finds the parents of individual.
func resolve(individual Individual, position map[string]int32) (cross, error) {
	if individual.CloneOf != "" && (individual.SeedParent != "" || individual.PollenParent != "") {
		return cross{unknown, unknown}, fmt.Errorf(
			"%q is said to be the same as %q and to have parents: state the parents on %[2]q alone",
			individual.Name, individual.CloneOf)
	}
	up := cross{unknown, unknown}
	for side, parent := range individual.parents() {
		if parent == "" {
			continue
		}
		at, ok := position[parent]
		if !ok {
			return cross{unknown, unknown}, fmt.Errorf(
				"%q comes from %q, which isn't in the pedigree: declare %[2]q, or leave the parent unknown",
				individual.Name, parent)
		}
		up[side] = at
	}
	return up, nil
}

// number gives each genotype a number higher than those of its parents, and
// all clones of it that same number.
func number(individuals []Individual, up []cross, order []int32) *Pedigree {
	p := &Pedigree{
		genotype: make(map[string]int32, len(individuals)),
		cross:    make([]cross, 0, len(individuals)),
	}
	genotypes := make([]int32, len(individuals))
	for _, i := range order {
		from := up[i].renumbered(genotypes)
		if individuals[i].CloneOf != "" {
			genotypes[i] = from[0]
		} else {
			genotypes[i] = int32(len(p.cross))
			p.cross = append(p.cross, from)
		}
		p.genotype[individuals[i].Name] = genotypes[i]
	}
	return p
}
