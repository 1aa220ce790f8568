package report

import (
	"fmt"
	"math"
	"strconv"

	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/stat"
)

// sentences say what is likely and what is not known.
func (t *survivalTable) sentences() []string {
	w := t.words
	w.better = "lives longer"
	switch {
	case len(t.lives) == 0:
		return []string{w.none()}
	case len(t.groups) == 0:
		return []string{"Nothing is known yet: none has a verdict."}
	}
	var out []string
	if len(t.groups) > 1 {
		day := t.horizon()
		p := math.NaN()
		if t.tested {
			p = t.lots.Widen(t.test.Test).P
		}
		c := rank(w, t.rivals(day), t.lots, p, func(a, b rival) (float64, bool) {
			test, ok := stat.LogRank([][]stat.Exit{t.exitsOf(a.name), t.exitsOf(b.name)})
			return t.lots.Widen(test.Test).P, ok
		})
		out = c.sentences()
		if len(c.rivals) > 1 {
			out = append(out, fmt.Sprintf("Shares in these sentences are those alive after %d days.", day))
		}
	}
	if len(t.silent) > 0 {
		out = append(out, "Nothing is known yet of "+someOf(t.silent)+".")
	}
	return out
}

// notes say what was counted how.
func (t *survivalTable) notes(n *nursery.Nursery, o Options) []string {
	var notes []string
	if s := t.leftOpen(); s != "" {
		notes = append(notes, s)
	}
	unseen, culled, joined, returns := 0, 0, 0, 0
	for _, l := range t.lives {
		unseen, culled, joined, returns = unseen+l.unseen, culled+l.culled, joined+l.joined, returns+l.returns
	}
	if unseen > 0 {
		notes = append(notes, fmt.Sprintf("Left out for want of any verdict: %s.", t.words.counted(unseen)))
	}
	if culled > 0 {
		notes = append(notes, fmt.Sprintf("%s culled: out by choice, counted as withdrawn and not as dead. If they were culled because they were ailing, the truth lies lower.", wereCounted(culled)))
	}
	if joined > 0 {
		notes = append(notes, fmt.Sprintf("%s joined with other lots and followed up to that day only: what dies in a joined lot can't be told apart.", wereCounted(joined)))
	}
	if returns > 0 {
		notes = append(notes, fmt.Sprintf("%s came back from buyers, which corrects their sale.", grouping(returns)))
	}
	if t.lots.Phi() > 1 {
		notes = append(notes, lotsDiffer(t.lots)+"; the intervals take each plant for itself and are too narrow by that.")
	}
	if s := passedOver(n, o); s != "" {
		notes = append(notes, s)
	}
	return notes
}

func wereCounted(n int) string {
	if n == 1 {
		return "1 was"
	}
	return grouping(n) + " were"
}

// mostWatches is how many different watches the open estimate is made of: its
// climb takes time by their number.
const mostWatches = 200

// leftOpen says what is known if it is left open when between two looks a plant
// died.
func (t *survivalTable) leftOpen() string {
	const dated = "A death is dated by the look that found it"
	spans, found, ok := t.spans()
	if !found {
		return ""
	}
	if shares := sharesLeftOpen(spans); ok && len(shares) > 0 {
		return fmt.Sprintf("%s. If it is left open when between two looks each died, the share alive of all together is %s (Turnbull).", dated, listed(shares))
	}
	return dated + "."
}

// spans are when the deaths of all groups together may have fallen; found tells
// whether there were any, ok whether they are not too many to reckon with.
func (t *survivalTable) spans() (spans []stat.Span, found, ok bool) {
	type between struct{ from, to int }
	count := map[between]int{}
	for _, l := range t.lives {
		for _, w := range l.watches() {
			count[between{w.LastAlive, w.FirstDead}] += w.Count
			found = found || w.FirstDead != stat.Never && w.Count > 0
		}
	}
	if len(count) > mostWatches {
		return nil, found, false
	}
	watches := make([]stat.Watch, 0, len(count))
	for days, n := range count {
		watches = append(watches, stat.Watch{LastAlive: days.from, FirstDead: days.to, Count: n})
	}
	spans, ok = stat.Turnbull(watches)
	return spans, found, ok
}

// sharesLeftOpen tells the share alive at the milestones, equal ones together.
func sharesLeftOpen(spans []stat.Span) []string {
	var parts []string
	share, days := "", []string(nil) // the days to which one share belongs
	tell := func() {
		if len(days) > 0 {
			parts = append(parts, fmt.Sprintf("%s at %s days", share, listed(days)))
		}
	}
	for _, day := range milestones {
		low, high, ok := between(spans, day)
		if !ok {
			break
		}
		if next := shareRange(low, high); next != share {
			tell()
			share, days = next, nil
		}
		days = append(days, strconv.Itoa(day))
	}
	tell()
	return parts
}

func shareRange(low, high float64) string {
	if percent(low) == percent(high) {
		return percent(low)
	}
	return percent(low) + " to " + percent(high)
}

// between is what the share alive on a day lies between; ok is false after the
// last look.
func between(spans []stat.Span, day int) (low, high float64, ok bool) {
	high = 1
	for _, s := range spans {
		switch {
		case s.To == stat.Never && day > s.From:
			return 0, 0, false
		case s.To == stat.Never, day <= s.From:
			return high, high, true
		case day < s.To:
			return s.Alive, high, true
		}
		high = s.Alive
	}
	return high, high, true
}
