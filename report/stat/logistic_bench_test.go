package stat

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// season is a table of lots with three factors of the given numbers of
// levels, each of which moves the log odds.
func season(lots int, sizes [3]int) Logistic {
	random := rand.New(rand.NewPCG(1, 2))
	l := Logistic{Counts: make([]Tally, lots), Confidence: 0.95}
	eta := make([]float64, lots)
	for f, size := range sizes {
		factor := Factor{Name: fmt.Sprint("factor", f), At: make([]int, lots)}
		effects := make([]float64, size)
		for i := range size {
			factor.Levels = append(factor.Levels, fmt.Sprint(i))
			effects[i] = random.NormFloat64() / 2
		}
		for i := range lots {
			factor.At[i] = random.IntN(size)
			eta[i] += effects[factor.At[i]]
		}
		l.Factors = append(l.Factors, factor)
	}
	for i := range lots {
		p := 1 / (1 + math.Exp(-eta[i]))
		l.Counts[i].N = 5 + random.IntN(40)
		for range l.Counts[i].N {
			if random.Float64() < p {
				l.Counts[i].X++
			}
		}
	}
	return l
}

func BenchmarkLogistic(b *testing.B) {
	for name, sizes := range map[string][3]int{
		"5 methods, 8 workers, 12 months":   {5, 8, 12},
		"5 methods, 50 mothers, 10000 lots": {5, 50, 10_000},
		"5 methods, 400 mothers, 5000 lots": {5, 400, 5_000},
	} {
		b.Run(name, func(b *testing.B) {
			l := season(100_000, sizes)
			b.ReportAllocs()
			for b.Loop() {
				if _, err := l.Fit(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
