package stat

import (
	"errors"
	"fmt"
)

// Logistic is a logistic regression on rows of grouped trials: the log odds
// of a success are an intercept, plus what each factor's level adds, plus
// what pairs of levels add where an interaction is asked for.
type Logistic struct {
	// Counts holds the response, a tally a row. Rows without trials say
	// nothing and are passed over.
	Counts  []Tally
	Factors []Factor
	// Interactions are pairs of positions in Factors.
	Interactions [][2]int
	// Confidence of the intervals, 0.95 for 95 %.
	Confidence float64
}

// Factor sorts rows into levels. At holds for each row the position of its
// level in Levels.
type Factor struct {
	Name   string
	Levels []string
	At     []int
}

// LogisticFit is a fitted regression. Levels are compared with the reference
// level of their factor, the one with most trials.
type LogisticFit struct {
	// Intercept is the log odds with every factor at its reference level, and
	// nil where no row is left to estimate it from (see Separated).
	Intercept *Estimate
	Terms     []Term
	Tests     []FactorTest

	Rows                   int // with trials
	Deviance, NullDeviance float64
	// Dispersion is that of rows about the fit. Where its Phi exceeds 1, all
	// standard errors are wider by its root, intervals are by Student's t and
	// tests by F; else by the normal and chi-square laws.
	Dispersion Overdispersion

	// Aliased are levels that cannot be told apart from others. They have no
	// term; what the others show may be theirs.
	Aliased []Alias
	// Separated are levels whose estimate would be without bound. They have
	// no term, and their rows, fitted without error, bear on no other term.
	Separated []Separation
	// Constant are the factors with one level only in the rows with trials.
	Constant []string

	model *regression
	fit   *solution
	scale errorScale
}

// Estimate is a log odds or a difference of log odds.
type Estimate struct {
	Value, StdError float64
}

// Level names a level of a factor, or of an interaction: both names joined.
type Level struct {
	Factor, Name string
}

// Term is what a level adds to the log odds over the level Against, and the
// odds ratio with its interval. P is of the test that it adds nothing.
type Term struct {
	Level
	Against string
	Estimate
	OddsRatio float64
	Interval
	P float64
}

// FactorTest tests that a factor or interaction adds nothing to a fit of all
// others, but for interactions that it takes part in.
type FactorTest struct {
	Factor string
	Test
}

// Alias says that Of is a sum of multiples of With in all rows (and perhaps
// a constant).
type Alias struct {
	Of   Level
	With []Level
}

// Separation says that a level's odds are fitted as none or all, and why.
type Separation struct {
	Level
	Side Side
}

// Side says which outcome a level's rows have.
type Side int

const (
	Jointly    Side = iota // both, but one only among rows like each other
	NoSuccess              // no trial succeeded
	AllSuccess             // every trial succeeded
)

var (
	// ErrNothingKnown says that no row has trials.
	ErrNothingKnown = errors.New("no row has a known outcome")
	// ErrOneOutcome says that all trials succeeded or none: no factor can
	// have made a difference.
	ErrOneOutcome = errors.New("every known outcome is the same")
)

// TooManyLevelsError says that a fit would need more columns, besides those of
// the largest factor, than Limit.
type TooManyLevelsError struct {
	Columns, Limit int
}

func (e *TooManyLevelsError) Error() string {
	return fmt.Sprintf("the factors besides the largest come to %d columns, more than the %d that can be fitted", e.Columns, e.Limit)
}

// columnLimit bounds the part of a fit whose memory grows with its square and
// whose time with its cube: 32 MB, and about a second a step.
const columnLimit = 2000

// Fit maximises the likelihood by iteratively reweighted least squares with
// treatment contrasts, and reckons the dispersion by quasi-likelihood from
// Pearson's statistic.
//
// P. McCullagh and J. A. Nelder (1989), Generalized Linear Models, 2nd
// edition, chapters 4 and 9; for estimates without bound, C. J. Geyer (2009),
// Likelihood inference in exponential families and directions of recession,
// Electronic Journal of Statistics 3:259-289: rows that the likelihood drives
// to certainty are set aside and the rest is fitted.
//
// Rows that agree in all levels are fitted as one, so time and memory grow
// with rows and with distinct combinations of levels. The factor with most
// levels is eliminated before the equations are formed and may have any
// number; the others, with interactions, may have two thousand columns in
// all, or the error is a *TooManyLevelsError. Other errors are
// ErrNothingKnown and ErrOneOutcome. A level out of range panics.
func (l Logistic) Fit() (*LogisticFit, error) {
	model, err := newRegression(l)
	if err != nil {
		return nil, err
	}
	terms := model.terms()
	fit, err := model.maximise(terms)
	if err != nil {
		return nil, err
	}
	out := &LogisticFit{model: model, fit: fit, Rows: len(model.rows)}
	out.Deviance = 2 * (model.saturated - fit.logLik)
	out.NullDeviance = 2 * (model.saturated - model.nullLogLik())
	out.Dispersion = fit.dispersion(model)
	if fit.finite != nil {
		fit.invert()
	}
	out.scale = newErrorScale(out.Dispersion, l.Confidence)
	for f, factor := range l.Factors {
		if len(model.used[f]) < 2 {
			out.Constant = append(out.Constant, factor.Name)
		}
	}
	out.Aliased = fit.aliases(model)
	out.Separated = fit.separations(model, terms)
	out.describe(terms)
	if err := out.test(terms); err != nil {
		return nil, err
	}
	return out, nil
}
