package stat

import (
	"maps"
	"math"
	"slices"
)

// Contrast compares two levels of a factor by name, whichever of them is the
// reference. ok is false where either is aliased, separated, absent or
// unknown, or both are the same. Beside an interaction that the factor takes
// part in, the contrast holds at the reference level of the other factor.
func (l *LogisticFit) Contrast(factor, level, against string) (term Term, ok bool) {
	f := slices.IndexFunc(l.model.Factors, func(f Factor) bool { return f.Name == factor })
	if f < 0 || l.fit.finite == nil || level == against || len(l.model.used[f]) < 2 {
		return Term{}, false
	}
	names := l.model.Factors[f].Levels
	return l.contrast(f, slices.Index(names, level), slices.Index(names, against))
}

func (l *LogisticFit) contrast(f, level, against int) (term Term, ok bool) {
	e := effect{f, none}
	v, ok := l.fit.effectOf(column{e, levels{level, none}})
	if !ok {
		return Term{}, false
	}
	w, ok := l.fit.effectOf(column{e, levels{against, none}})
	if !ok {
		return Term{}, false
	}
	return l.term(l.model.level(e, levels{level, none}), l.model.Factors[f].Levels[against], v.minus(w)), true
}

// describe fills in the intercept and a term for each level that can be
// estimated.
func (l *LogisticFit) describe(terms []effect) {
	s := l.fit
	if s.finite == nil {
		return
	}
	intercept := l.estimate(s.intercept())
	l.Intercept = &intercept
	for _, e := range terms {
		if e.second == none {
			reference := s.finite.reference[e.first]
			for _, level := range l.model.used[e.first] {
				if level == reference {
					continue
				}
				if term, ok := l.contrast(e.first, level, reference); ok {
					l.Terms = append(l.Terms, term)
				}
			}
			continue
		}
		against := l.model.level(e, levels{s.finite.reference[e.first], s.finite.reference[e.second]}).Name
		for _, col := range s.finite.columns {
			if col.effect == e {
				v, _ := s.effectOf(col)
				l.Terms = append(l.Terms, l.term(l.model.level(e, col.levels), against, v))
			}
		}
	}
}

func (l *LogisticFit) estimate(v linear) Estimate {
	return Estimate{v.value, math.Sqrt(l.fit.variance(v)) * l.scale.widening}
}

func (l *LogisticFit) term(level Level, against string, v linear) Term {
	e := l.estimate(v)
	margin := l.scale.quantile * e.StdError
	return Term{
		Level: level, Against: against, Estimate: e,
		OddsRatio: math.Exp(e.Value),
		Interval:  Interval{math.Exp(e.Value - margin), math.Exp(e.Value + margin)},
		P:         l.scale.twoSided(e.Value / e.StdError),
	}
}

// test compares, for each effect, the fit of all effects that do not contain
// it with the fit of those and itself. An effect that adds no column has no
// test.
func (l *LogisticFit) test(terms []effect) error {
	for _, e := range terms {
		others := slices.DeleteFunc(slices.Clone(terms), func(other effect) bool { return other.contains(e) })
		without, err := l.model.maximise(others)
		if err != nil {
			return err
		}
		with := l.fit
		if len(others)+1 < len(terms) {
			if with, err = l.model.maximise(append(others, e)); err != nil {
				return err
			}
		}
		df := with.rank() - without.rank()
		if df == 0 {
			continue
		}
		change := max(0, 2*(with.logLik-without.logLik))
		test := chiSquareTest(change, df)
		if phi := l.Dispersion.Phi(); phi > 1 {
			test = fTest(change/float64(df)/phi, df, l.Dispersion.DF)
		}
		l.Tests = append(l.Tests, FactorTest{l.model.name(e), test})
	}
	return nil
}

// aliases names the dependent columns of all cells.
func (s *solution) aliases(r *regression) []Alias {
	var aliased []Alias
	for _, d := range s.dependent {
		alias := Alias{Of: r.level(d.effect, d.levels)}
		for _, on := range d.on {
			alias.With = append(alias.With, r.level(on.effect, on.levels))
		}
		aliased = append(aliased, alias)
	}
	return aliased
}

// separations names the levels that have an estimate neither for want of
// independence nor within bounds.
func (s *solution) separations(r *regression, terms []effect) []Separation {
	var found []Separation
	for _, e := range terms {
		totals := totalsOf(r.cells, e)
		for _, at := range slices.SortedFunc(maps.Keys(totals), compareLevels) {
			col := column{e, at}
			if s.estimable(col) || s.isDependent(col) {
				continue
			}
			side := Jointly
			switch t := totals[at]; t.x {
			case 0:
				side = NoSuccess
			case t.n:
				side = AllSuccess
			}
			found = append(found, Separation{r.level(e, at), side})
		}
	}
	return found
}
