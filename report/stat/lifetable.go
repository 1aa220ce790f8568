package stat

import (
	"math"
	"slices"
)

// LifeRow is one interval of a life table, from Start to the Start of the
// next row; the last is open.
type LifeRow struct {
	Start, Entering, Died, Withdrawn int
	// Exposed is Entering less half of those withdrawn in the interval.
	Exposed float64
	// Risk is the chance of dying in the interval for one who enters it.
	Risk, RiskError float64
	// Alive is the share alive at Start.
	Alive, AliveError float64
}

// LifeTable is the actuarial table of exits grouped into intervals that begin
// on the given days: each interval's risk is its deaths over those exposed,
// and the share alive the product of what the earlier risks leave. Standard
// errors are sqrt(risk(1-risk)/exposed) and Greenwood's.
//
// S. J. Cutler and F. Ederer (1958), Maximum utilization of the life table
// method in analyzing survival, Journal of Chronic Diseases 8:699-712;
// M. Greenwood (1926), Reports on Public Health and Medical Subjects 33:1-26.
//
// Starts must rise and the first lie at or before the first exit. The table
// ends with the last interval that anyone enters.
func LifeTable(exits []Exit, starts []int) []LifeRow {
	days := byDay(exits)
	if len(days) > 0 && (len(starts) == 0 || starts[0] > days[0].Day) || !slices.IsSorted(starts) {
		panic("stat: the intervals of a life table must rise and begin by the first exit")
	}
	entering := leaving(days)
	var rows []LifeRow
	alive, sum := 1.0, 0.0
	for i, start := range starts {
		if entering == 0 {
			break
		}
		row := LifeRow{Start: start, Entering: entering, Alive: alive, AliveError: alive * math.Sqrt(sum)}
		for len(days) > 0 && (i == len(starts)-1 || days[0].Day < starts[i+1]) {
			row.Died += days[0].Died
			row.Withdrawn += days[0].Withdrawn
			days = days[1:]
		}
		row.Exposed = float64(entering) - float64(row.Withdrawn)/2
		row.Risk = float64(row.Died) / row.Exposed
		row.RiskError = math.Sqrt(row.Risk * (1 - row.Risk) / row.Exposed)
		rows = append(rows, row)
		entering -= row.Died + row.Withdrawn
		alive *= 1 - row.Risk
		if alive > 0 {
			sum += row.Risk / ((1 - row.Risk) * row.Exposed)
		}
	}
	return rows
}

// LifeMedian is the time by which half have died, on a straight line between
// the starts around it. ok is false where more than half are alive at the
// start of the last interval.
func LifeMedian(rows []LifeRow) (day float64, ok bool) {
	for i := 1; i < len(rows); i++ {
		if before, after := rows[i-1], rows[i]; after.Alive <= 0.5 {
			part := (before.Alive - 0.5) / (before.Alive - after.Alive)
			return float64(before.Start) + part*float64(after.Start-before.Start), true
		}
	}
	return 0, false
}
