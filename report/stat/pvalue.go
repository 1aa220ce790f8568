package stat

import (
	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/stat/distuv"
)

// Test is the outcome of a test: the statistic, its degrees of freedom and
// the probability of one as large or larger if there is no effect. ErrorDF is
// 0 where the statistic is a chi-square, and the degrees of freedom of the
// denominator where it is an F.
type Test struct {
	Statistic   float64
	DF, ErrorDF int
	P           float64
}

func chiSquareTest(statistic float64, df int) Test {
	law := distuv.ChiSquared{K: float64(df)}
	return Test{Statistic: statistic, DF: df, P: law.Survival(statistic)}
}

func fTest(statistic float64, df, errorDF int) Test {
	// The upper tail itself: 1 less the lower one would lose small p-values.
	a, b := float64(df), float64(errorDF)
	p := mathext.RegIncBeta(b/2, a/2, b/(b+a*statistic))
	return Test{Statistic: statistic, DF: df, ErrorDF: errorDF, P: p}
}
