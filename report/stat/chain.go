package stat

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// Chance is the law of a chance that is not known, as values with what each
// weighs. A chain of chances has such a law too: where each of n units passes
// one gate after the other, each with its chance, the number that pass all of
// them is binomial with the product of the chances.
type Chance struct{ at, weight []float64 }

// chanceValues is how many values stand for a law.
const chanceValues = 256

// Chance is the law of the outlook's share, on cells of one width.
func (o Outlook) Chance() Chance {
	mean := o.Mean()
	reach := 8 * math.Sqrt(mean*(1-mean)/(o.Alpha+o.Beta+1))
	low, high := max(0, mean-reach), min(1, mean+reach)
	c := Chance{make([]float64, chanceValues), make([]float64, chanceValues)}
	before := mathext.RegIncBeta(o.Alpha, o.Beta, low)
	for i := range chanceValues {
		c.at[i] = low + (high-low)*(float64(i)+0.5)/chanceValues
		upTo := mathext.RegIncBeta(o.Alpha, o.Beta, min(1, low+(high-low)*float64(i+1)/chanceValues))
		c.weight[i] = upTo - before
		before = upTo
	}
	within := before - mathext.RegIncBeta(o.Alpha, o.Beta, low)
	for i := range c.weight {
		c.weight[i] /= within
	}
	return c
}

// Certain is the law of a chance that is known.
func Certain(p float64) Chance {
	mustBeTrials(0, p)
	return Chance{[]float64{p}, []float64{1}}
}

// Then is the chance of passing c and then d.
func (c Chance) Then(d Chance) Chance {
	return c.with(d, func(p, q float64) float64 { return p * q })
}

// OrThen is the chance of passing c, or else d at a second try.
func (c Chance) OrThen(d Chance) Chance {
	return c.with(d, func(p, q float64) float64 { return p + (1-p)*q })
}

// with is the law of what f, which rises in both, makes of two independent
// chances: on evenly spaced values, between which weight is shared so that the
// mean is kept.
func (c Chance) with(d Chance, f func(p, q float64) float64) Chance {
	low := f(c.at[0], d.at[0])
	span := f(c.at[len(c.at)-1], d.at[len(d.at)-1]) - low
	if !(span > 0) {
		return Certain(low)
	}
	out := Chance{make([]float64, chanceValues), make([]float64, chanceValues)}
	for i := range out.at {
		out.at[i] = low + span*float64(i)/(chanceValues-1)
	}
	for i, p := range c.at {
		for j, q := range d.at {
			place := (f(p, q) - low) / span * (chanceValues - 1)
			below := max(0, min(int(place), chanceValues-2))
			weight := c.weight[i] * d.weight[j]
			out.weight[below] += weight * (float64(below+1) - place)
			out.weight[below+1] += weight * (place - float64(below))
		}
	}
	return out
}

// Mean is the mean of the chance.
func (c Chance) Mean() float64 {
	sum := 0.0
	for i, p := range c.at {
		sum += c.weight[i] * p
	}
	return sum
}

// AtLeast is the probability that k or more of n pass.
func (c Chance) AtLeast(k, n int) float64 {
	sum := 0.0
	for i, p := range c.at {
		switch off := float64(k) - float64(n)*p; {
		case off > farOff*math.Sqrt(float64(n)*p*(1-p))+farOff: // none
		case -off > farOff*math.Sqrt(float64(n)*p*(1-p))+farOff:
			sum += c.weight[i]
		default:
			sum += c.weight[i] * BinomialAtLeast(k, n, p)
		}
	}
	return sum
}

// farOff is how many standard deviations, and trials besides, a count may lie
// from what is expected before its chance is taken to be none: it is below one
// in a thousand million there.
const farOff = 8

// TrialsFor is the smallest number of which k or more pass with probability
// sure; ok is false where no number up to a thousand million is enough.
func (c Chance) TrialsFor(k int, sure float64) (n int, ok bool) {
	mustBeProbability(sure, "assurance")
	return firstEnough(k, func(n int) bool { return c.AtLeast(k, n) >= sure-tieSlack })
}

// Quantile is the value that the chance falls short of with probability p, to
// the width of a cell.
func (c Chance) Quantile(p float64) float64 {
	sum := 0.0
	for i, w := range c.weight {
		if sum += w; sum >= p-tieSlack {
			return c.at[i]
		}
	}
	return c.at[len(c.at)-1]
}
