package report

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/stat"
)

// verdict says what is likely and what is not known of the groups.
func (t *takeTable) verdict(batches []*nursery.Batch) []string {
	w, known := t.words, t.all.outcome
	switch {
	case len(batches) == 0:
		return []string{w.none()}
	case known.N == 0:
		return []string{fmt.Sprintf("Nothing is known yet: none of the %s has a verdict. A check says what became of them: %s.", w.counted(t.all.made), exampleCheck[t.kind])}
	}
	fit, factor, err := t.fit()
	if errors.Is(err, stat.ErrOneOutcome) {
		return append([]string{t.oneOutcome()}, t.confounded()...)
	}
	if err != nil || len(t.groups) == 1 {
		return t.confounded()
	}
	p := math.NaN()
	if len(fit.Tests) > 0 {
		p = fit.Tests[0].P
	}
	rivals := make([]rival, len(t.groups))
	for i, g := range t.groups {
		rate := t.sums[i].outcome.Rate()
		rivals[i] = rival{g.name(), t.sums[i].outcome, rate, rate}
		if t.ranked() {
			rivals[i].score = t.drawnIn[i]
		}
	}
	c := rank(w, rivals, fit.Dispersion, p, func(a, b rival) (float64, bool) {
		if term, ok := fit.Contrast(factor, a.name, b.name); ok {
			return term.P, true
		}
		return stat.Fisher(a.outcome, b.outcome).TwoSided, true // one of them is all or nothing
	})
	return append(c.sentences(), t.confounded()...)
}

// exampleCheck shows how a verdict is written.
var exampleCheck = [...]string{
	nursery.GraftBatch: "check AM26: 39 took, 6 failed, 3 dead", nursery.LayerBatch: "check FG26: 10 rooted, 2 failed",
	nursery.CuttingBatch: "check FC26: 46 rooted, 2 failed, 12 dead", nursery.SeedBatch: "check TR26: 52 up, 8 dead",
}

// fit fits the groups' rates, with the lots as rows.
func (t *takeTable) fit() (fit *stat.LogisticFit, factor string, err error) {
	f := stat.Factor{Name: "group"}
	var counts []stat.Tally
	for i, g := range t.groups {
		f.Levels = append(f.Levels, g.name())
		for _, lot := range t.sums[i].perLot {
			counts = append(counts, lot)
			f.At = append(f.At, i)
		}
	}
	fit, err = stat.Logistic{Counts: counts, Factors: []stat.Factor{f}, Confidence: confidence}.Fit()
	return fit, f.Name, err
}

// oneOutcome says what none of n, or all of n, can and can't tell.
func (t *takeTable) oneOutcome() string {
	known := t.all.outcome
	limits := stat.Wilson(known.X, known.N, confidence)
	if known.X == 0 {
		return fmt.Sprintf("None of %s %s. By the count alone the true share may still be as high as %s.",
			t.words.counted(known.N), t.words.past(), percent(limits.High))
	}
	return fmt.Sprintf("All of %s %s. By the count alone the true share may still be as low as %s.",
		t.words.counted(known.N), t.words.past(), percent(limits.Low))
}

// past is what those that succeeded did.
func (w wording) past() string {
	if w.took == wordings[nursery.SeedBatch].took {
		return "came up"
	}
	return w.took
}

// confounded says where one hand made all attempts by a method: there the two
// can't be told apart.
func (t *takeTable) confounded() []string {
	method, worker := slices.Index(t.by, "method"), slices.Index(t.by, "worker")
	if method < 0 || worker < 0 {
		return nil
	}
	hands := map[string][]string{}
	var methods []string
	for _, g := range t.groups {
		m, w := g.values[method], orUnnamed(g.values[worker])
		if m == "" {
			continue
		}
		if hands[m] == nil {
			methods = append(methods, m)
		}
		if !slices.Contains(hands[m], w) {
			hands[m] = append(hands[m], w)
		}
	}
	var only []string
	for _, m := range methods {
		if len(hands[m]) == 1 {
			only = append(only, fmt.Sprintf("%s (%s)", m, hands[m][0]))
		}
	}
	if len(only) == 0 || len(methods) == 1 {
		return nil
	}
	return []string{"Done by one hand only, so that hand and method can't be told apart there: " + someOf(only) + "."}
}
