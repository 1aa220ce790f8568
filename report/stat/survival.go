package stat

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// Never stands for a day that is not reached: a half that does not die, a
// death not seen.
const Never = math.MaxInt

// Exit is how many left observation on a day after their start: dead, or
// withdrawn alive (sold, planted out, still alive when last seen).
type Exit struct {
	Day, Died, Withdrawn int
}

// Curve is the share alive against days, a point for each day with exits.
type Curve struct {
	Points []CurvePoint
}

// CurvePoint is the state at the end of a day. AtRisk were under observation
// at its beginning. StdError is Greenwood's, and 0 where all are alive or all
// dead.
type CurvePoint struct {
	Day, AtRisk, Died, Withdrawn int
	Alive, StdError              float64
	Interval
}

// Limits is the scale on which the limits of a curve are symmetric.
type Limits int

const (
	// LogLog is log(-log(share)): limits that stay within 0 and 1 and fit
	// small groups. Where all are alive or all dead it has none, and Wilson's
	// limits are given, with the number at risk over the share alive just
	// before as the number of trials (R. Peto et al. 1977, British Journal of
	// Cancer 35:1-39, for that number).
	LogLog Limits = iota
	// Log is log(share); limits above 1 are drawn in to it.
	Log
	// Plain is the share itself; limits outside 0 and 1 are drawn in.
	Plain
)

// KaplanMeier is the product-limit estimate of the share alive: the product
// over the days so far of 1 - died/at risk, those withdrawn on a day being at
// risk on it. Its standard error is Greenwood's,
// alive sqrt(sum died/(at risk (at risk - died))).
//
// E. L. Kaplan and P. Meier (1958), Nonparametric estimation from incomplete
// observations, Journal of the American Statistical Association 53:457-481;
// M. Greenwood (1926), Reports on Public Health and Medical Subjects 33:1-26;
// J. D. Kalbfleisch and R. L. Prentice (1980), The Statistical Analysis of
// Failure Time Data, section 1.3, for the log-log limits.
//
// Exits may come in any order, several to a day. No exits give no points.
func KaplanMeier(exits []Exit, conf float64, scale Limits) Curve {
	z := normalQuantile(conf)
	days := byDay(exits)
	atRisk := leaving(days)
	points := make([]CurvePoint, len(days))
	alive, sum := 1.0, 0.0
	for i, exit := range days {
		before := alive
		n, d := float64(atRisk), float64(exit.Died)
		alive *= 1 - d/n
		sum += d / (n * (n - d))
		points[i] = CurvePoint{
			Day: exit.Day, AtRisk: atRisk, Died: exit.Died, Withdrawn: exit.Withdrawn,
			Alive: alive,
		}
		if alive > 0 {
			points[i].StdError = alive * math.Sqrt(sum)
		}
		points[i].Interval = curveLimits(points[i], n/before, z, scale)
		atRisk -= exit.Died + exit.Withdrawn
	}
	return Curve{points}
}

// curveLimits are the limits of a point that is known as well as effective
// plants would tell it.
func curveLimits(p CurvePoint, effective, z float64, scale Limits) Interval {
	var low, high float64
	switch {
	case scale == Plain:
		low, high = p.Alive-z*p.StdError, p.Alive+z*p.StdError
	case scale == LogLog && (p.Alive == 0 || p.Alive == 1):
		return wilson(p.Alive, effective, z)
	case p.Alive == 0:
		low, high = 0, 0
	case scale == Log:
		factor := math.Exp(z * p.StdError / p.Alive)
		low, high = p.Alive/factor, p.Alive*factor
	default:
		power := math.Exp(z * p.StdError / (p.Alive * math.Abs(math.Log(p.Alive))))
		low, high = math.Pow(p.Alive, power), math.Pow(p.Alive, 1/power)
	}
	return Interval{max(0, low), min(1, high)}
}

// At is the point in force on a day: the last one at or before it. ok is
// false before the first exit, when all are alive, and after the last one if
// any were alive then: nobody was watched so long.
func (c Curve) At(day int) (point CurvePoint, ok bool) {
	i, exact := slices.BinarySearchFunc(c.Points, day, func(p CurvePoint, day int) int {
		return cmp.Compare(p.Day, day)
	})
	if !exact {
		i--
	}
	if i < 0 {
		return CurvePoint{}, false
	}
	point = c.Points[i]
	last := i == len(c.Points)-1
	return point, exact || !last || point.Alive == 0
}

// MedianDay is the first day by which no more than half are alive, and the
// first days by which the limits of the curve say so. A day that the curve
// does not reach is Never.
type MedianDay struct {
	Day, Low, High int
}

// Median is the median survival and its limits, the days on which the limits
// of the curve pass one half.
//
// R. Brookmeyer and J. Crowley (1982), A confidence interval for the median
// survival time, Biometrics 38:29-41.
func (c Curve) Median() MedianDay {
	m := MedianDay{Never, Never, Never}
	for _, p := range slices.Backward(c.Points) {
		if p.Alive <= 0.5 {
			m.Day = p.Day
		}
		if p.Low <= 0.5 {
			m.Low = p.Day
		}
		if p.High <= 0.5 {
			m.High = p.Day
		}
	}
	return m
}

// byDay puts exits in order, one to a day. Days on which nobody left are
// dropped.
func byDay(exits []Exit) []Exit {
	sorted := slices.SortedFunc(slices.Values(exits), func(a, b Exit) int {
		return cmp.Compare(a.Day, b.Day)
	})
	merged := sorted[:0]
	for _, e := range sorted {
		if e.Died < 0 || e.Withdrawn < 0 {
			panic(fmt.Sprintf("stat: %d died and %d withdrew on day %d", e.Died, e.Withdrawn, e.Day))
		}
		if e.Died+e.Withdrawn == 0 {
			continue
		}
		if last := len(merged) - 1; last >= 0 && merged[last].Day == e.Day {
			merged[last].Died += e.Died
			merged[last].Withdrawn += e.Withdrawn
			continue
		}
		merged = append(merged, e)
	}
	return merged
}

// leaving is how many leave in all, dead or alive.
func leaving(exits []Exit) int {
	n := 0
	for _, e := range exits {
		n += e.Died + e.Withdrawn
	}
	return n
}
