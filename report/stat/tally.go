package stat

import "fmt"

// Tally is a count of successes among trials: X of N.
type Tally struct {
	X, N int
}

// Rate is X/N, and 0 where N is 0.
func (t Tally) Rate() float64 {
	if t.N == 0 {
		return 0
	}
	return float64(t.X) / float64(t.N)
}

// Pool adds tallies up: numerators and denominators, never rates.
func Pool(ts []Tally) Tally {
	var sum Tally
	for _, t := range ts {
		sum.X += t.X
		sum.N += t.N
	}
	return sum
}

func (t Tally) mustBeValid() {
	if t.X < 0 || t.X > t.N {
		panic(fmt.Sprintf("stat: %d of %d is no count of successes among trials", t.X, t.N))
	}
}

func mustBeProbability(p float64, what string) {
	if !(p > 0 && p < 1) {
		panic(fmt.Sprintf("stat: %s %v is not between 0 and 1", what, p))
	}
}
