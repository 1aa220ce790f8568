package stat

import (
	"cmp"
	"fmt"
	"slices"
)

// Watch is what checks say of when Count plants died: after day LastAlive and
// by day FirstDead, which is Never where they were alive when last seen.
type Watch struct {
	LastAlive, FirstDead, Count int
}

// Span is a stretch of days, after From and by To, in which a share Mass of
// deaths falls; where in it, checks cannot tell. Alive is the share alive at
// its end. A last span with To Never holds those that outlived all checks.
type Span struct {
	From, To    int
	Mass, Alive float64
}

// turnbullRounds bounds the climb. Each round costs time in proportion to the
// number of distinct watches.
const turnbullRounds = 200_000

// Turnbull is the maximum likelihood estimate of when deaths fell, given only
// the checks on either side of each: masses on the innermost spans, climbed
// by self-consistency until no span could gain more than one part in a
// thousand million. Spans with less than a ten-thousandth of one plant, of
// which the climb would take ages to be rid, are left out.
//
// B. W. Turnbull (1976), The empirical distribution function with arbitrarily
// grouped, censored and truncated data, Journal of the Royal Statistical
// Society B 38:290-295; R. Gentleman and C. J. Geyer (1994), Maximum
// likelihood for interval censored data, Biometrika 81:618-623, for the test
// that the climb has arrived.
//
// ok is false where there is nothing to estimate from, or where the climb has
// not arrived, and the spans are then as far as it came.
func Turnbull(watches []Watch) (spans []Span, ok bool) {
	merged := mergeWatches(watches)
	spans = innermost(merged)
	if len(spans) == 0 {
		return nil, false
	}
	climb := newTurnbullClimb(merged, spans)
	for range turnbullRounds {
		if ok = climb.round() < 1e-9; ok {
			break
		}
	}
	alive := 1.0
	kept := spans[:0]
	for i, span := range spans {
		if climb.mass[i]*climb.total < 1e-4 {
			continue
		}
		alive -= climb.mass[i]
		span.Mass, span.Alive = climb.mass[i], max(0, alive)
		kept = append(kept, span)
	}
	return kept, ok
}

// mergeWatches puts watches in order, one for each pair of days.
func mergeWatches(watches []Watch) []Watch {
	sorted := slices.SortedFunc(slices.Values(watches), func(a, b Watch) int {
		return cmp.Or(cmp.Compare(a.LastAlive, b.LastAlive), cmp.Compare(a.FirstDead, b.FirstDead))
	})
	merged := sorted[:0]
	for _, w := range sorted {
		if w.FirstDead <= w.LastAlive || w.Count < 0 {
			panic(fmt.Sprintf("stat: %d plants alive on day %d and dead by day %d", w.Count, w.LastAlive, w.FirstDead))
		}
		if w.Count == 0 {
			continue
		}
		if last := len(merged) - 1; last >= 0 && merged[last].LastAlive == w.LastAlive && merged[last].FirstDead == w.FirstDead {
			merged[last].Count += w.Count
			continue
		}
		merged = append(merged, w)
	}
	return merged
}

// innermost are the spans from a LastAlive to a FirstDead with no other day
// of either kind between: all that the likelihood can put mass on.
func innermost(watches []Watch) []Span {
	type end struct {
		day  int
		dead bool
	}
	var ends []end
	for _, w := range watches {
		ends = append(ends, end{w.LastAlive, false}, end{w.FirstDead, true})
	}
	// On one day a death seen comes before a plant seen alive: the first
	// fell by that day, the second will fall after it.
	slices.SortFunc(ends, func(a, b end) int {
		if c := cmp.Compare(a.day, b.day); c != 0 || a.dead == b.dead {
			return c
		}
		if a.dead {
			return -1
		}
		return 1
	})
	var spans []Span
	for i := 1; i < len(ends); i++ {
		if !ends[i-1].dead && ends[i].dead {
			spans = append(spans, Span{From: ends[i-1].day, To: ends[i].day})
		}
	}
	return spans
}

// turnbullClimb holds the masses and, for each watch, the spans first to last
// (excluded) that lie within it.
type turnbullClimb struct {
	first, last []int
	count       []float64
	total       float64
	mass        []float64
	sums, gains []float64 // running sums, reused from round to round
}

func newTurnbullClimb(watches []Watch, spans []Span) *turnbullClimb {
	c := &turnbullClimb{
		mass:  make([]float64, len(spans)),
		sums:  make([]float64, len(spans)+1),
		gains: make([]float64, len(spans)+1),
	}
	for i := range c.mass {
		c.mass[i] = 1 / float64(len(spans))
	}
	for _, w := range watches {
		first, _ := slices.BinarySearchFunc(spans, w.LastAlive, func(s Span, day int) int { return cmp.Compare(s.From, day) })
		last, _ := slices.BinarySearchFunc(spans, w.FirstDead, func(s Span, day int) int {
			if s.To <= day {
				return -1
			}
			return 1
		})
		c.first, c.last = append(c.first, first), append(c.last, last)
		c.count = append(c.count, float64(w.Count))
		c.total += float64(w.Count)
	}
	return c
}

// round gives each span the share of deaths that the masses so far expect in
// it, and returns how much the mean log likelihood could still gain at most.
func (c *turnbullClimb) round() float64 {
	for i, m := range c.mass {
		c.sums[i+1] = c.sums[i] + m
		c.gains[i] = 0
	}
	c.gains[len(c.mass)] = 0
	for i, count := range c.count {
		gain := count / (c.sums[c.last[i]] - c.sums[c.first[i]])
		c.gains[c.first[i]] += gain
		c.gains[c.last[i]] -= gain
	}
	var gain, most float64
	for i := range c.mass {
		gain += c.gains[i] / c.total
		most = max(most, gain)
		c.mass[i] *= gain
	}
	return most - 1
}
