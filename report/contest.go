package report

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/budstick/budstick/report/stat"
)

const (
	// mostRivals is how many levels are compared two by two: of more, those
	// with most attempts.
	mostRivals = 12
	// fewKnown is below how many known outcomes a rate is marked as resting on
	// few data: at 5 of 10 the interval still spans 53 points.
	fewKnown = 10
	// significance is how seldom luck alone may give what is called likely.
	significance = 1 - confidence
	// power is the chance with which the number of attempts that would settle a
	// question settles it.
	power = 0.8
)

// A rival is one of several that are compared: a method, a hand, a mother.
type rival struct {
	name    string
	outcome stat.Tally
	rate    float64 // as compared: raw, or with all else alike
	score   float64 // by which the best is found
}

// A pair is two rivals, by index, and the probability that luck alone parts
// them so far, adjusted for all pairs that are looked at (Holm).
type pair struct {
	a, b int
	p    float64
}

// A contest is what can be said of some rivals.
type contest struct {
	words  wording
	rivals []rival // with enough attempts to compare; the best first
	few    []rival // with too few
	pairs  []pair  // of rivals, the best first
	lots   stat.Overdispersion
	p      float64 // that all are alike; NaN where no test can be made
}

// rank makes a contest of rivals. test gives the probability that luck alone
// parts two of them, where there is a test.
func rank(words wording, rivals []rival, lots stat.Overdispersion, p float64, test func(a, b rival) (float64, bool)) contest {
	c := contest{words: words, lots: lots, p: p}
	c.rivals, c.few = contenders(rivals)
	slices.SortStableFunc(c.rivals, func(a, b rival) int { return cmp.Compare(b.score, a.score) })
	var ps []float64
	for i, a := range c.rivals {
		for j, b := range c.rivals[i+1:] {
			if p, ok := test(a, b); ok {
				c.pairs = append(c.pairs, pair{a: i, b: i + 1 + j})
				ps = append(ps, p)
			}
		}
	}
	for i, adjusted := range stat.Holm(ps) {
		c.pairs[i].p = adjusted
	}
	return c
}

// contenders are the rivals that can be compared, of very many those with most
// attempts, and those with too few.
func contenders(rivals []rival) (enough, few []rival) {
	for _, r := range rivals {
		switch {
		case r.outcome.N >= fewKnown:
			enough = append(enough, r)
		case r.outcome.N > 0:
			few = append(few, r)
		}
	}
	if len(enough) > mostRivals {
		slices.SortStableFunc(enough, func(a, b rival) int { return cmp.Compare(b.outcome.N, a.outcome.N) })
		enough = enough[:mostRivals]
	}
	return enough, few
}

// sentences say what is likely, what is not known, and what would settle it.
func (c contest) sentences() []string {
	var out []string
	if len(c.rivals) > 1 {
		out = append(out, c.likely())
		if s := c.question(); s != "" {
			out = append(out, s)
		}
		if c.lots.DF == 0 && c.p < significance {
			out = append(out, "Of each there is one lot only, so nothing is known of how far lots differ by themselves: the difference may be the lot's.")
		}
	}
	if len(c.few) > 0 {
		var names []string
		for _, r := range c.few {
			names = append(names, fmt.Sprintf("%s (%d)", r.name, r.outcome.N))
		}
		out = append(out, "Too few to judge by: "+someOf(names)+".")
	}
	return out
}

// mostWinners is how many rivals are named as better than others.
const mostWinners = 3

func (c contest) likely() string {
	var claims []string
	for i, r := range c.rivals {
		var losers []string
		for _, pair := range c.pairs {
			if pair.p < significance && c.better(pair) == i {
				losers = append(losers, c.rivals[pair.a+pair.b-i].name)
			}
		}
		if len(losers) > 0 && len(claims) < mostWinners {
			claims = append(claims, fmt.Sprintf("%s %s than %s", r.name, c.words.better, someOf(losers)))
		}
	}
	switch {
	case len(claims) > 0:
		s := "Likely: "
		for i, claim := range claims {
			if i > 0 {
				s += "; "
			}
			s += claim
		}
		return s + "."
	case c.p < significance:
		return fmt.Sprintf("Likely: not all are alike (p %s), but no two stand clearly apart.", inWords(c.p))
	case math.IsNaN(c.p):
		return "Likely: nothing can be said yet."
	}
	return fmt.Sprintf("Likely: nothing yet. Luck and the differences between lots could make all of this (p %s).", inWords(c.p))
}

// question is the most useful thing that is not known: whether the best is
// better than the next that could be, else the widest gap that is not settled.
func (c contest) question() string {
	asked := -1
	for i, p := range c.pairs {
		switch {
		case p.p < significance:
			continue
		case asked < 0, p.a > 0 && c.gap(p) > c.gap(c.pairs[asked]):
			asked = i
		}
		if c.pairs[asked].a == 0 {
			break
		}
	}
	if asked < 0 {
		return ""
	}
	a, b := c.rivals[c.pairs[asked].a], c.rivals[c.pairs[asked].b]
	return fmt.Sprintf("Not known: which of %s (%s) and %s (%s) %s. %s",
		a.name, percent(a.rate), b.name, percent(b.rate), c.words.better, c.settle(a, b))
}

// better is the one of a pair with the higher rate, by index.
func (c contest) better(p pair) int {
	if c.rivals[p.b].rate > c.rivals[p.a].rate {
		return p.b
	}
	return p.a
}

func (c contest) gap(p pair) float64 { return math.Abs(c.rivals[p.a].rate - c.rivals[p.b].rate) }

// settle says how many attempts would tell two rivals apart, if their rates are
// what they seem.
func (c contest) settle(a, b rival) string {
	level := significance / float64(max(1, len(c.pairs)))
	need, ok := stat.PerGroup(a.rate, b.rate, c.lots.Phi(), 1-level, power)
	switch {
	case a.rate == b.rate:
		return "They are alike so far, and no number would tell them apart."
	case !ok || need > 100_000:
		return "The gap is so small that no nursery could make enough to tell."
	}
	if need <= min(a.outcome.N, b.outcome.N) {
		return fmt.Sprintf("There are enough %s for such a gap (%s and %s), but too few lots to say how far lots differ by themselves; more lots would tell.",
			c.words.many, grouping(a.outcome.N), grouping(b.outcome.N))
	}
	return fmt.Sprintf("If the gap is what it seems, about %s of each would tell (8 times in 10); there are %s and %s.",
		c.words.counted(rounded(need)), grouping(a.outcome.N), grouping(b.outcome.N))
}

// rounded rounds a number up to two digits, the rest zeros.
func rounded(n int) int {
	unit := 1
	for n/unit >= 100 {
		unit *= 10
	}
	return (n + unit - 1) / unit * unit
}

// inWords writes a probability for a sentence.
func inWords(p float64) string {
	switch {
	case p < 0.001:
		return "below 0.001"
	case p < 0.1:
		return fmt.Sprintf("%.3f", p)
	}
	return fmt.Sprintf("%.2f", p)
}
