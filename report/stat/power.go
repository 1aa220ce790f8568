package stat

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// PerGroup is the number of trials that each of two groups needs if a
// two-sided test at level 1-conf is to tell the rates pa and pb apart with
// chance power:
//
//	n = (z sqrt(2 m(1-m)) + y sqrt(pa(1-pa) + pb(1-pb)))^2 / (pa-pb)^2
//
// with m the mean of the two, and z and y the normal quantiles of the level
// and the power, without continuity correction; times phi where trials come
// in lots that differ more than chance. The number is rounded up.
//
// J. L. Fleiss, B. Levin and M. C. Paik (2003), Statistical Methods for Rates
// and Proportions, 3rd edition, section 4.2.
//
// ok is false where the rates are the same, or so close that the number is
// beyond counting: no trial would tell them apart.
func PerGroup(pa, pb, phi, conf, power float64) (n int, ok bool) {
	if !(pa >= 0 && pa <= 1 && pb >= 0 && pb <= 1) {
		panic("stat: rates outside 0 to 1")
	}
	mustBeProbability(power, "power")
	z, y := normalQuantile(conf), mathext.NormalQuantile(power)
	m := (pa + pb) / 2
	root := z*math.Sqrt(2*m*(1-m)) + y*math.Sqrt(pa*(1-pa)+pb*(1-pb))
	need := math.Ceil(max(1, phi) * (root / (pa - pb)) * (root / (pa - pb)))
	if pa == pb || need > math.MaxInt32 {
		return 0, false
	}
	return int(need), true
}
