package stat

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
)

// dependence is the share of a column's sum of squares that must be left once
// the columns before it are taken out, for it to count as new.
const dependence = 1e-10

// symmetric is a symmetric matrix of which the lower triangle is kept, row by
// row.
type symmetric struct {
	size  int
	cells []float64
}

func newSymmetric(size int) symmetric {
	return symmetric{size, make([]float64, size*size)}
}

// row is row i from its first column to column end, excluded.
func (s symmetric) row(i, end int) []float64 {
	return s.cells[i*s.size : i*s.size+end]
}

// elimination is the Cholesky factor, row by row, of a positive semidefinite
// matrix. A column that depends linearly on those before it has pivot 0 and
// is left out of every solution, as if it were not there.
type elimination struct {
	factor    symmetric
	dependent []int
}

// eliminate factors s in place. Scale gives for each column the size against
// which its pivot is small; nil stands for the diagonal of s.
//
// G. H. Golub and C. F. Van Loan (2013), Matrix Computations, 4th edition,
// section 4.2.
func eliminate(s symmetric, scale []float64) elimination {
	e := elimination{factor: s}
	for i := range s.size {
		row := s.row(i, i+1)
		for j := range i {
			if pivot := s.row(j, j+1)[j]; pivot > 0 {
				row[j] = (row[j] - floats.Dot(row[:j], s.row(j, j))) / pivot
			} else {
				row[j] = 0
			}
		}
		size := row[i]
		if scale != nil {
			size = scale[i]
		}
		left := row[i] - floats.Dot(row[:i], row[:i])
		if left > dependence*size {
			row[i] = math.Sqrt(left)
		} else {
			row[i] = 0
			e.dependent = append(e.dependent, i)
		}
	}
	return e
}

func (e elimination) rank() int {
	return e.factor.size - len(e.dependent)
}

// forward solves the lower half: the result's squares add up to v's quadratic
// form in the inverse.
func (e elimination) forward(v []float64) []float64 {
	y := make([]float64, len(v))
	for i := range y {
		if pivot := e.factor.row(i, i+1)[i]; pivot > 0 {
			y[i] = (v[i] - floats.Dot(e.factor.row(i, i), y[:i])) / pivot
		}
	}
	return y
}

// backward solves the upper half, in place.
func (e elimination) backward(y []float64) {
	for i := len(y) - 1; i >= 0; i-- {
		pivot := e.factor.row(i, i+1)[i]
		if pivot == 0 {
			y[i] = 0
			continue
		}
		y[i] /= pivot
		floats.AddScaled(y[:i], -y[i], e.factor.row(i, i))
	}
}

// solve gives x with s x = v, 0 in the dependent columns.
func (e elimination) solve(v []float64) []float64 {
	x := e.forward(v)
	e.backward(x)
	return x
}

// combination writes dependent column i as weights of the columns before it.
func (e elimination) combination(i int) []float64 {
	weights := slices.Clone(e.factor.row(i, i))
	e.backward(weights)
	return weights
}

// inverse is the inverse, with 0 in the rows and columns that depend on
// others.
func (e elimination) inverse() symmetric {
	inv := newSymmetric(e.factor.size)
	unit := make([]float64, e.factor.size)
	for i := range unit {
		unit[i] = 1
		copy(inv.row(i, inv.size), e.solve(unit))
		unit[i] = 0
	}
	return inv
}
