package stat

// Standardised splits the change of a pooled rate between two seasons into
// what the mix of strata did and what the rates within strata did.
type Standardised struct {
	// RateA and RateB are the pooled rates as they were.
	RateA, RateB float64
	// AWithMixOfB is the rate that season a would have had with the strata in
	// the proportions of season b, and BWithMixOfA the other way about.
	AWithMixOfB, BWithMixOfA float64
	// Mix and Rate add up to RateB - RateA.
	Mix, Rate float64
}

// Standardise compares season a with season b over strata that stand at the
// same index in both. Each direct standardisation weights the rates of one
// season by the trials of the other; the split weights differences of mix by
// mean rates and differences of rate by mean mixes:
//
//	Mix  = sum (wb-wa) (pa+pb)/2,  Rate = sum (pb-pa) (wa+wb)/2
//
// E. M. Kitagawa (1955), Components of a difference between two rates,
// Journal of the American Statistical Association 50:1168-1194.
//
// A stratum tried in one season only is given that season's rate in the
// other too, so that all it changes counts as mix. ok is false where either
// season has no trials. Unequal numbers of strata panic.
func Standardise(a, b []Tally) (s Standardised, ok bool) {
	if len(a) != len(b) {
		panic("stat: seasons of unequal strata")
	}
	poolA, poolB := Pool(a), Pool(b)
	if poolA.N == 0 || poolB.N == 0 {
		return Standardised{}, false
	}
	s.RateA, s.RateB = poolA.Rate(), poolB.Rate()
	for i := range a {
		a[i].mustBeValid()
		b[i].mustBeValid()
		pa, pb := a[i].Rate(), b[i].Rate()
		if a[i].N == 0 {
			pa = pb
		}
		if b[i].N == 0 {
			pb = pa
		}
		wa := float64(a[i].N) / float64(poolA.N)
		wb := float64(b[i].N) / float64(poolB.N)
		s.AWithMixOfB += wb * pa
		s.BWithMixOfA += wa * pb
		s.Mix += (wb - wa) * (pa + pb) / 2
		s.Rate += (pb - pa) * (wa + wb) / 2
	}
	return s, true
}
