package stat

// Spread is the beta-binomial law of many groups' rates, fitted by maximum
// likelihood: each group has a chance of its own, drawn from one beta law.
type Spread struct {
	// Mean is the mean of the groups' chances, and Rho their correlation
	// within a group: 0 where all groups share one chance, 1 where each is all
	// or nothing. The beta law has shape Mean(1-Rho)/Rho, (1-Mean)(1-Rho)/Rho.
	Mean, Rho     float64
	LogLikelihood float64
	Edge          Edge
	pool          Tally
}

// Edge says whether the likelihood has its maximum inside the range of Rho.
type Edge int

const (
	// Inside is the regular case.
	Inside Edge = iota
	// NoSpread is a maximum at 0: groups differ no more than chance would have
	// them do, or too little is known to say. Rho is 0.
	NoSpread
	// AllOrNothing is a maximum at 1: every group has one outcome only, but
	// not all the same. Rho is 1.
	AllOrNothing
)

// FitSpread fits the law to groups. It decides for NoSpread by the slope of
// the likelihood at Rho 0 (R. E. Tarone 1979, Testing the goodness of fit of
// the binomial distribution, Biometrika 66:585-590), and otherwise climbs the
// likelihood profiled over the mean. The likelihood is summed by how many
// groups exceed each count, after D. M. Smith (1983), Algorithm AS 189:
// maximum likelihood estimation of the parameters of the beta binomial
// distribution, Applied Statistics 32:196-204, so its cost grows with the
// largest group and not with the number of groups.
//
// Groups without trials are passed over. Without any trial the Mean is 0 and
// the Edge NoSpread.
func FitSpread(groups []Tally) Spread {
	l := newSpreadLikelihood(groups)
	fit := Spread{pool: Pool(groups), Edge: NoSpread}
	fit.Mean = fit.pool.Rate()
	if fit.pool.X > 0 && fit.pool.X < fit.pool.N && l.slope(fit.Mean, 0) > 0 {
		if l.mixed {
			fit.Edge = Inside
			fit.Mean, fit.Rho = l.maximise(fit.Mean)
		} else {
			fit.Edge = AllOrNothing
			fit.Mean, fit.Rho = l.shareOfFull, 1
		}
	}
	fit.LogLikelihood = l.at(fit.Mean, fit.Rho)
	return fit
}

// DrawnIn is the rate of a group drawn towards what all groups have in common:
// the posterior mean of its chance, given its tally and the law of all groups. A
// group without trials has the mean of the law.
//
// B. Efron and C. Morris (1975), Data analysis using Stein's estimator and
// its generalizations, Journal of the American Statistical Association
// 70:311-319; for the beta law, J. C. Kleinman (1973), Proportions with
// extraneous variance, Journal of the American Statistical Association
// 68:46-54.
//
// At the edges there is no beta law to draw with. Where there is NoSpread,
// every group is given the posterior of the pooled tally under Jeffreys'
// prior; where it is AllOrNothing, the law is taken to be worth one trial.
func (s Spread) DrawnIn(group Tally) float64 {
	a, b := s.posterior(group)
	return a / (a + b)
}

// posterior is the shape of the beta law of a group's chance.
func (s Spread) posterior(group Tally) (a, b float64) {
	group.mustBeValid()
	if s.Edge == NoSpread {
		return float64(s.pool.X) + 0.5, float64(s.pool.N-s.pool.X) + 0.5
	}
	weight := 1.0
	if s.Edge == Inside {
		weight = (1 - s.Rho) / s.Rho
	}
	return s.Mean*weight + float64(group.X), (1-s.Mean)*weight + float64(group.N-group.X)
}
