package pedigree

import (
	"fmt"
	"math/rand/v2"
	"testing"
)

const many = 100_000

// matings are pedigrees of many varieties: any earlier two as parents;
// generations of 1000 that mate at random; and a line of four a generation,
// the worst case, with ancestors as many as there are varieties.
var matings = []struct {
	name   string
	parent func(i int, random *rand.Rand) int
}{
	{"any", func(i int, random *rand.Rand) int { return random.IntN(i) }},
	{"thousands", func(i int, random *rand.Rand) int { return i - i%1000 - 1 - random.IntN(1000) }},
	{"fours", func(i int, random *rand.Rand) int { return i - i%4 - 1 - random.IntN(4) }},
}

func mated(n int, parent func(int, *rand.Rand) int) []Individual {
	random := rand.New(rand.NewPCG(1, 2))
	individuals := make([]Individual, n)
	for i := range individuals {
		individuals[i].Name = fmt.Sprintf("V%d", i)
		if i >= 1000 {
			individuals[i].SeedParent = individuals[parent(i, random)].Name
			individuals[i].PollenParent = individuals[parent(i, random)].Name
		}
	}
	return individuals
}

func BenchmarkNew(b *testing.B) {
	individuals := mated(many, matings[0].parent)
	b.ReportAllocs()
	for b.Loop() {
		mustNew(b, individuals)
	}
}

func BenchmarkInbreedingOfAll(b *testing.B) {
	for _, m := range matings {
		b.Run(m.name, func(b *testing.B) {
			individuals := mated(many, m.parent)
			p, names := mustNew(b, individuals), namesOf(individuals)
			b.ReportAllocs()
			for b.Loop() {
				if _, err := p.Inbreeding(names...); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkCoancestryOfTen(b *testing.B) {
	for _, m := range matings {
		b.Run(m.name, func(b *testing.B) {
			individuals := mated(many, m.parent)
			p, names := mustNew(b, individuals), namesOf(individuals[many-10:])
			b.ReportAllocs()
			for b.Loop() {
				if _, err := p.Coancestry(names...); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
