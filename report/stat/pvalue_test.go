package stat

import (
	"math"
	"testing"
)

// Five and one per cent points as in any table of the laws, such as those of
// R. A. Fisher and F. Yates, Statistical Tables for Biological, Agricultural
// and Medical Research (from memory).
func TestPValuesOfTables(t *testing.T) {
	near(t, "chi-square 3.841 on 1", chiSquareTest(3.841, 1).P, 0.05, 2e-5)
	near(t, "chi-square 16.81 on 6", chiSquareTest(16.81, 6).P, 0.01, 2e-5)
	near(t, "F 2.76 on 3 and 60", fTest(2.76, 3, 60).P, 0.05, 2e-4)
	near(t, "F 4.13 on 3 and 60", fTest(4.13, 3, 60).P, 0.01, 1e-4)
	if p := fTest(200, 3, 60).P; !(p > 0 && p < 1e-25) {
		t.Errorf("F 200 on 3 and 60 has p %v", p)
	}
	for _, df := range []int{1, 4, 30} {
		// F on 1 and df is the square of t: at 0 nothing is rare.
		if p := fTest(0, 1, df).P; math.Abs(p-1) > 1e-12 {
			t.Errorf("F 0 on 1 and %d has p %v", df, p)
		}
	}
}
