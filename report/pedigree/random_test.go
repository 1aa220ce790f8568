package pedigree

import (
	"fmt"
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
)

// randomPedigree makes n individuals, parents first: founders, seedlings of
// one or two known parents, selfed seedlings, clones, and clones of clones.
// below(n) is a number from 0 to n-1.
func randomPedigree(n int, below func(int) int) []Individual {
	individuals := make([]Individual, n)
	for i := range individuals {
		individuals[i].Name = fmt.Sprintf("V%d", i)
		if i < 2 {
			continue
		}
		// Half the parents are recent, so that lines grow deep and inbred.
		earlier := func() string {
			if below(2) == 0 {
				return individuals[max(0, i-1-below(4))].Name
			}
			return individuals[below(i)].Name
		}
		switch below(10) {
		case 0:
		case 1:
			individuals[i].SeedParent = earlier()
		case 2:
			individuals[i].PollenParent = earlier()
		case 3:
			parent := earlier()
			individuals[i].SeedParent, individuals[i].PollenParent = parent, parent
		case 4, 5:
			individuals[i].CloneOf = earlier()
		default:
			individuals[i].SeedParent, individuals[i].PollenParent = earlier(), earlier()
		}
	}
	return individuals
}

func namesOf(individuals []Individual) []string {
	names := make([]string, len(individuals))
	for i := range individuals {
		names[i] = individuals[i].Name
	}
	return names
}

// exactCoancestry fills the whole table by the rule of the tabular method in
// exact fractions, each clone as a row of its own. Parents come first.
func exactCoancestry(individuals []Individual) [][]*big.Rat {
	half := big.NewRat(1, 2)
	place := map[string]int{}
	table := make([][]*big.Rat, len(individuals))
	for i, individual := range individuals {
		place[individual.Name] = i
		table[i] = make([]*big.Rat, len(individuals))
		with := func(parent string, j int) *big.Rat {
			if parent == "" {
				return new(big.Rat)
			}
			return table[place[parent]][j]
		}
		for j := range i {
			if source := individual.CloneOf; source != "" {
				table[i][j] = with(source, j)
			} else {
				sum := new(big.Rat).Add(with(individual.SeedParent, j), with(individual.PollenParent, j))
				table[i][j] = sum.Mul(sum, half)
			}
			table[j][i] = table[i][j]
		}
		switch {
		case individual.CloneOf != "":
			source := place[individual.CloneOf]
			table[i][i] = table[source][source]
		case individual.SeedParent != "" && individual.PollenParent != "":
			self := new(big.Rat).Add(big.NewRat(1, 1), table[place[individual.SeedParent]][place[individual.PollenParent]])
			table[i][i] = self.Mul(self, half)
		default:
			table[i][i] = half
		}
	}
	return table
}

func TestAgreesWithExactTable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 40).Draw(t, "individuals")
		individuals := randomPedigree(n, func(limit int) int {
			return rapid.IntRange(0, limit-1).Draw(t, "choice")
		})
		want := exactCoancestry(individuals)
		names := namesOf(individuals)
		p, err := New(rapid.Permutation(individuals).Draw(t, "declared"))
		if err != nil {
			t.Fatal(err)
		}
		// Some of the names, in any order and perhaps twice.
		rows := rapid.SliceOfN(rapid.IntRange(0, n-1), 1, 10).Draw(t, "named")
		named := make([]string, len(rows))
		for k, row := range rows {
			named[k] = names[row]
		}
		table, err := p.Coancestry(named...)
		if err != nil {
			t.Fatal(err)
		}
		f, err := p.Inbreeding(named...)
		if err != nil {
			t.Fatal(err)
		}
		for a, i := range rows {
			self, _ := want[i][i].Float64()
			if math.Abs(f[a]-(2*self-1)) > 1e-14 {
				t.Fatalf("F of %s is %v, not %v", named[a], f[a], 2*self-1)
			}
			for b, j := range rows {
				exact, _ := want[i][j].Float64()
				if math.Abs(table[a][b]-exact) > 1e-14 {
					t.Fatalf("coancestry of %s and %s is %v, not %v", named[a], named[b], table[a][b], want[i][j])
				}
				if exact == 0 && table[a][b] != 0 {
					t.Fatalf("%s and %s are unrelated, not %v", named[a], named[b], table[a][b])
				}
				if table[a][b] != table[b][a] {
					t.Fatalf("%s and %s differ by order", named[a], named[b])
				}
			}
		}
	})
}

// Both ways to inbreeding must give the same, since which one is taken hangs
// on the size of the pedigree.
func TestTableAndWalkAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 80).Draw(t, "individuals")
		p, err := New(randomPedigree(n, func(limit int) int {
			return rapid.IntRange(0, limit-1).Draw(t, "choice")
		}))
		if err != nil {
			t.Fatal(err)
		}
		youngest := youngestSeedlings(p.cross)
		table := byTable(p.cross, youngest, widest(p.cross, youngest))
		for g, walked := range byWalk(p.cross) {
			if math.Abs(table[g]-walked) > 1e-14 {
				t.Fatalf("F of genotype %d is %v by the table, %v by the walk", g, table[g], walked)
			}
		}
	})
}

// Gene dropping (MacCluer and others 1986, Zoo Biology 5:147): founders carry
// alleles of their own, each seedling draws one from each parent, each clone
// copies its source, and the share of drops in which two drawn alleles are the
// same one estimates coancestry. The seeds are fixed. A mean of values within
// 0 and 1 has at most the standard error of a coin of that mean.
func TestAgreesWithGeneDropping(t *testing.T) {
	const drops = 4000
	for seed := range uint64(12) {
		random := rand.New(rand.NewPCG(seed, 2016))
		individuals := randomPedigree(24, random.IntN)
		names := namesOf(individuals)
		p := mustNew(t, individuals)
		table, err := p.Coancestry(names...)
		if err != nil {
			t.Fatal(err)
		}
		f, err := p.Inbreeding(names...)
		if err != nil {
			t.Fatal(err)
		}
		pairs, alike := dropGenes(individuals, drops, random)
		for i := range names {
			if got := float64(alike[i]) / drops; math.Abs(got-f[i]) > 5*standardError(f[i], drops) {
				t.Errorf("seed %d: F of %s is %v, dropped %v", seed, names[i], f[i], got)
			}
			for j := range names {
				want := table[i][j]
				if got := float64(pairs[i][j]) / (4 * drops); math.Abs(got-want) > 5*standardError(want, drops) {
					t.Errorf("seed %d: coancestry of %s and %s is %v, dropped %v", seed, names[i], names[j], want, got)
				}
			}
		}
	}
}

// standardError is that of the share of n coins that fall with chance p; for a
// rare event it allows for one more.
func standardError(p, n float64) float64 {
	if p == 0 {
		return 0
	}
	return math.Sqrt(p*(1-p)/n) + 1/n
}

// dropGenes counts, over drops, the same alleles among the four pairs of each
// two individuals, and the individuals whose own two are the same.
func dropGenes(individuals []Individual, drops int, random *rand.Rand) (pairs [][]int, alike []int) {
	n := len(individuals)
	place := map[string]int{}
	pairs = make([][]int, n)
	alike = make([]int, n)
	for i, individual := range individuals {
		place[individual.Name] = i
		pairs[i] = make([]int, n)
	}
	genes := make([][2]int, n)
	for range drops {
		for i, individual := range individuals {
			if individual.CloneOf != "" {
				genes[i] = genes[place[individual.CloneOf]]
			} else {
				genes[i] = [2]int{2 * i, 2*i + 1}
				for side, parent := range [2]string{individual.SeedParent, individual.PollenParent} {
					if parent != "" {
						genes[i][side] = genes[place[parent]][random.IntN(2)]
					}
				}
			}
			if genes[i][0] == genes[i][1] {
				alike[i]++
			}
		}
		for i := range n {
			for j := range n {
				for _, a := range genes[i] {
					for _, b := range genes[j] {
						if a == b {
							pairs[i][j]++
						}
					}
				}
			}
		}
	}
	return pairs, alike
}
