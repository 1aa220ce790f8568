package stat

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// Matrices of whole numbers, made as sums of squares of few columns of which
// the last may repeat the sum of the others.
func TestElimination(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := rapid.IntRange(1, 6).Draw(t, "size")
		repeats := size > 1 && rapid.Bool().Draw(t, "repeats")
		columns := make([][]float64, size)
		for j := range columns {
			columns[j] = make([]float64, 3*size)
			for i := range columns[j] {
				columns[j][i] = float64(rapid.IntRange(-4, 4).Draw(t, "entry"))
			}
			columns[j][j] += 40 // so that none but the last depends on others
		}
		if repeats {
			clear(columns[size-1])
			for _, c := range columns[:size-1] {
				for i, v := range c {
					columns[size-1][i] += v
				}
			}
		}
		s := newSymmetric(size)
		at := func(i, j int) (sum float64) {
			for k := range columns[i] {
				sum += columns[i][k] * columns[j][k]
			}
			return sum
		}
		for i := range size {
			for j := range i + 1 {
				s.row(i, size)[j] = at(i, j)
			}
		}
		e := eliminate(s, nil)
		if repeats {
			if !slices.Equal(e.dependent, []int{size - 1}) {
				t.Fatalf("dependent are %v, want the last", e.dependent)
			}
			for _, w := range e.combination(size - 1) {
				if math.Abs(w-1) > 1e-9 {
					t.Fatalf("the last is %v of the others, want 1 of each", e.combination(size-1))
				}
			}
			return
		}
		if e.rank() != size {
			t.Fatalf("rank %d, want %d", e.rank(), size)
		}
		inverse := e.inverse()
		for i := range size {
			right := make([]float64, size)
			for j := range size {
				right[j] = at(i, j)
			}
			for j, x := range e.solve(right) {
				want := 0.0
				if i == j {
					want = 1
				}
				if math.Abs(x-want) > 1e-9 {
					t.Fatalf("solution %d is %v, want %v", j, x, want)
				}
				var sum float64
				for k := range size {
					sum += right[k] * inverse.row(k, size)[j]
				}
				if math.Abs(sum-want) > 1e-9 {
					t.Fatalf("the inverse gives %v, want %v", sum, want)
				}
			}
		}
	})
}
