package stat

import (
	"cmp"
	"slices"
)

// LogRankTest compares the deaths of groups with those that each would have
// had if all died at the same rate on every day.
type LogRankTest struct {
	Observed []int
	Expected []float64
	Test
}

const mostGroups = 500

// LogRank is the log-rank test of groups given by their exits: deviations of
// deaths from their expectations over the hypergeometric covariance, summed
// over the days with deaths.
//
// N. Mantel (1966), Evaluation of survival data and two new rank order
// statistics arising in its consideration, Cancer Chemotherapy Reports
// 50:163-170; R. Peto and J. Peto (1972), Journal of the Royal Statistical
// Society A 135:185-207.
//
// A group that is never under observation together with another on a day with
// deaths takes up no degree of freedom. ok is false where none is left, and of
// more than 500 groups: time grows with days times the square of their number.
func LogRank(groups [][]Exit) (test LogRankTest, ok bool) {
	k := len(groups)
	if k > mostGroups {
		return LogRankTest{}, false
	}
	test.Observed, test.Expected = make([]int, k), make([]float64, k)
	atRisk := make([]int, k)
	type groupExit struct {
		Exit
		group int
	}
	var exits []groupExit
	for g, group := range groups {
		days := byDay(group)
		atRisk[g] = leaving(days)
		for _, e := range days {
			exits = append(exits, groupExit{e, g})
			test.Observed[g] += e.Died
		}
	}
	slices.SortStableFunc(exits, func(a, b groupExit) int { return cmp.Compare(a.Day, b.Day) })
	covariance := newSymmetric(k)
	for start := 0; start < len(exits); {
		end, died := start, 0
		for ; end < len(exits) && exits[end].Day == exits[start].Day; end++ {
			died += exits[end].Died
		}
		if died > 0 {
			addDay(covariance, test.Expected, atRisk, died)
		}
		for _, e := range exits[start:end] {
			atRisk[e.group] -= e.Died + e.Withdrawn
		}
		start = end
	}
	deviation := make([]float64, k)
	for g := range groups {
		deviation[g] = float64(test.Observed[g]) - test.Expected[g]
	}
	e := eliminate(covariance, nil)
	if e.rank() == 0 {
		return test, false
	}
	var sum float64
	for _, y := range e.forward(deviation) {
		sum += y * y
	}
	test.Test = chiSquareTest(sum, e.rank())
	return test, true
}

// addDay adds what a day with deaths contributes to the expectations and
// their covariance.
func addDay(covariance symmetric, expected []float64, atRisk []int, died int) {
	total := 0
	var present []int
	for g, n := range atRisk {
		total += n
		if n > 0 {
			present = append(present, g)
		}
	}
	n, d := float64(total), float64(died)
	spread := 0.0
	if total > 1 {
		spread = d * (n - d) / (n - 1)
	}
	for i, g := range present {
		share := float64(atRisk[g]) / n
		expected[g] += d * share
		row := covariance.row(g, g+1)
		row[g] += spread * share
		for _, h := range present[:i+1] {
			row[h] -= spread * share * float64(atRisk[h]) / n
		}
	}
}
