package stat

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

// errorScale is how standard errors become intervals and p-values: widened by
// the root of the dispersion, and by Student's t where that is estimated.
type errorScale struct {
	widening float64
	quantile float64
	// twoSided is the chance of a ratio to the standard error as large or
	// larger in absolute value.
	twoSided func(ratio float64) float64
}

func newErrorScale(o Overdispersion, conf float64) errorScale {
	if o.Phi() == 1 {
		return errorScale{1, normalQuantile(conf), func(z float64) float64 { return math.Erfc(math.Abs(z) / math.Sqrt2) }}
	}
	t := distuv.StudentsT{Sigma: 1, Nu: float64(o.DF)}
	return errorScale{
		widening: math.Sqrt(o.Phi()),
		quantile: t.Quantile((1 + conf) / 2),
		twoSided: func(ratio float64) float64 { return 2 * t.CDF(-math.Abs(ratio)) },
	}
}

// linear is a linear function of the fitted log odds, and how it varies: a
// part of its own, and a combination of the columns.
type linear struct {
	value float64
	own   float64
	on    []weighted
}

type weighted struct {
	column int32
	weight float64
}

func (v linear) minus(w linear) linear {
	out := linear{value: v.value - w.value, own: v.own + w.own, on: slices.Clone(v.on)}
	for _, part := range w.on {
		out.on = append(out.on, weighted{part.column, -part.weight})
	}
	return out
}

// invert prepares the errors of the finite part.
func (s *solution) invert() {
	s.weight = s.finite.weights()
	eq := s.finite.assemble(s.weight, make([]float64, len(s.weight)))
	s.block = eq.block
	s.inverse = eliminate(eq.rest, eq.scale).inverse()
}

// effectOf is what a level adds to the log odds: of a level of the absorbed
// factor, with the intercept in it. ok is false where the finite part does
// not have the level, or cannot tell it from others.
func (s *solution) effectOf(c column) (v linear, ok bool) {
	if c.effect == (effect{s.finite.absorbed, none}) {
		return s.blockEffect(c.levels.first)
	}
	if j, ok := s.finite.at[c]; ok {
		return linear{value: s.finite.column[j], on: []weighted{{int32(j), 1}}}, true
	}
	return linear{}, c.effect.second == none && s.finite.isReference(c)
}

// blockEffect is what a level of the absorbed factor adds, or with none
// absorbed the one block.
func (s *solution) blockEffect(level int) (v linear, ok bool) {
	b, ok := s.finite.blockOf(level)
	if !ok {
		return linear{}, false
	}
	v = linear{value: s.finite.block[b], own: 1 / s.block[b]}
	cross := newSparse(len(s.finite.columns))
	s.finite.crossing(b, s.weight, cross)
	for _, j := range cross.touched {
		v.on = append(v.on, weighted{j, -cross.value[j] / s.block[b]})
	}
	return v, true
}

// intercept is the log odds at the references.
func (s *solution) intercept() linear {
	level := none
	if s.finite.absorbed != none {
		level = s.finite.reference[s.finite.absorbed]
	}
	v, _ := s.blockEffect(level)
	return v
}

func (s *solution) variance(v linear) float64 {
	sum := v.own
	for _, a := range v.on {
		row := s.inverse.row(int(a.column), s.inverse.size)
		for _, b := range v.on {
			sum += a.weight * b.weight * row[b.column]
		}
	}
	return sum
}
