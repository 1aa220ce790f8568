package report

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/stat"
	"github.com/budstick/budstick/report/table"
)

var factors = &Report{
	Name:    "factors",
	Summary: "what made the difference: method, hand, mother, month or any other",
	Long: `Which of several things made the difference to the take, each with all the others alike: if Ines did the easy method,
her take is not hers alone. Each value of a factor is compared with the one that has most attempts, by the ratio of the
odds: 2 means twice as many successes for each failure, 0.5 half as many.

It is a logistic regression on lots, each lot a row. Where lots differ from each other by more than luck, all intervals
and tests allow for it (quasi-likelihood). The test of a factor asks whether it adds anything to all the others; --pairs
compares the values of a factor two by two, the probabilities adjusted for their number (Holm). --interaction asks whether
the effect of one factor hangs on the other.

What the journal can't tell is said first: factors that can't be told apart, because one hand did all of one method, and
values of which all took or none. Counts, first attempts and --kind are as in take.`,
	Example: "--on method,worker,mother --season 2026",
	Takes:   Spans | Filters | Factors | Kinds | Ordinals,
	By:      slices.DeleteFunc(dimensionNames(), func(name string) bool { return name == "kind" || name == "lot" }),
	Build:   buildFactors,
}

// A regression is a fit with what it was made of.
type regression struct {
	words   wording
	model   stat.Logistic
	fit     *stat.LogisticFit // nil where there is nothing to fit
	batches []*nursery.Batch
	pooled  [][]stat.Tally   // by factor and level
	index   []map[string]int // of levels, by factor and name
}

func buildFactors(n *nursery.Nursery, o Options) (*table.Doc, error) {
	if err := askable(n, o); err != nil {
		return nil, err
	}
	by := askedFor(o.By, "method", "worker")
	r, err := newRegression(n, o, by)
	if err != nil {
		return nil, err
	}
	doc := cohort(n, o, "factors", fmt.Sprintf("What made a difference to the %s: %s", r.words.what(), listed(by)))
	doc.Cautions = r.cautions()
	doc.Body = []table.Block{r.tests(), r.terms()}
	if dots, ok := r.dots(); ok {
		doc.Body = append(doc.Body, dots)
	}
	for _, name := range askedFor(o.Pairs) {
		if !slices.Contains(by, name) {
			return nil, fmt.Errorf("the pairs of %s can be compared only where it is a factor: --on %s,%s", name, by[0], name)
		}
	}
	if len(o.Pairs) > 0 {
		doc.Body = append(doc.Body, r.pairs(askedFor(o.Pairs)))
	}
	doc.Body = append(doc.Body, r.facts())
	doc.Notes = r.notes(n, o)
	return doc, nil
}

// what is the noun of a success: the take of grafts.
func (w wording) what() string { return w.rate + " of " + w.many }

// newRegression fits the lots that are chosen. Its error is one for the grower.
func newRegression(n *nursery.Nursery, o Options, by []string) (*regression, error) {
	r := &regression{words: wordings[o.Kind], batches: chosen(n, o)}
	r.model.Confidence = confidence
	r.model.Counts = make([]stat.Tally, len(r.batches))
	for i, b := range r.batches {
		r.model.Counts[i] = outcome(b)
	}
	for _, name := range by {
		f := factorOf(n, r.batches, dimensionNamed(name))
		index := make(map[string]int, len(f.Levels))
		for i, level := range f.Levels {
			f.Levels[i] = orUnnamed(level)
			index[f.Levels[i]] = i
		}
		r.index = append(r.index, index)
		r.model.Factors = append(r.model.Factors, f)
		pooled := make([]stat.Tally, len(f.Levels))
		for i, t := range r.model.Counts {
			pooled[f.At[i]].X += t.X
			pooled[f.At[i]].N += t.N
		}
		r.pooled = append(r.pooled, pooled)
	}
	for _, pair := range o.Interactions {
		a, b := slices.Index(by, pair[0]), slices.Index(by, pair[1])
		if a < 0 || b < 0 || a == b {
			return nil, fmt.Errorf("whether %s and %s hang together can be asked only where both are factors: --on %[1]s,%[2]s", pair[0], pair[1])
		}
		r.model.Interactions = append(r.model.Interactions, [2]int{a, b})
	}
	fit, err := r.model.Fit()
	tooMany := (*stat.TooManyLevelsError)(nil)
	switch {
	case errors.As(err, &tooMany):
		return nil, fmt.Errorf("the factors have too many values between them (%s beside the largest, and %s can be told apart); leave one out, or take a longer step such as season for month",
			grouping(tooMany.Columns), grouping(tooMany.Limit))
	case err == nil:
		r.fit = fit
	}
	return r, nil
}

// tests is the table of factors: whether each makes a difference.
func (r *regression) tests() table.Table {
	t := table.Table{Name: "tests", Title: "What makes a difference", Columns: []table.Column{
		{Name: "factor", Kind: table.KindText},
		{Name: "df", Heading: "values less one", Kind: table.KindCount, Spare: 1},
		{Name: "error_df", Kind: table.KindCount, For: table.Machines},
		{Name: "statistic", Heading: "chi square", Kind: table.KindNumber},
		{Name: "p", Heading: "by luck", Kind: table.KindPValue},
	}}
	if r.fit != nil {
		for _, test := range r.fit.Tests {
			errorDF := table.Unknown()
			if test.ErrorDF > 0 {
				errorDF = table.Count(test.ErrorDF)
				t.Columns[3].Heading = "F"
			}
			t.Add(table.Text(test.Factor), table.Count(test.DF), errorDF, table.Number(test.Statistic), table.PValue(test.P))
		}
	}
	t.Notes = r.sentences()
	return t
}

// mostDrawn is how many odds ratios are drawn.
const mostDrawn = 40

// terms is the table of values of factors, each against the commonest one. The
// odds are for people only where they are too many to draw.
func (r *regression) terms() table.Table {
	odds := table.Machines
	if _, drawn := r.dots(); !drawn {
		odds = table.Everyone
	}
	t := table.Table{Name: "terms", Title: "Value by value", Columns: []table.Column{
		{Name: "factor", Kind: table.KindText},
		{Name: "level", Heading: "value", Kind: table.KindText},
		{Name: "against", Kind: table.KindText, Spare: 1},
		{Name: "known", Kind: table.KindCount, Spare: 2},
		{Name: "rate", Heading: r.words.rate, Kind: table.KindRate, Spare: 2},
		{Name: "estimate", Kind: table.KindNumber, For: table.Machines},
		{Name: "std_error", Kind: table.KindNumber, For: table.Machines},
		{Name: "odds_ratio", Heading: "odds ratio", Kind: table.KindNumber, Low: "low", High: "high", For: odds},
		{Name: "low", Kind: table.KindNumber, For: table.Machines},
		{Name: "high", Kind: table.KindNumber, For: table.Machines},
		{Name: "p", Heading: "by luck", Kind: table.KindPValue},
	}}
	if r.fit == nil || len(r.fit.Terms) == 0 {
		forMachines(t.Columns)
		return t
	}
	for _, term := range r.fit.Terms {
		known, rate := table.Unknown(), table.Unknown()
		if tally, ok := r.tallyOf(term.Level); ok {
			known, rate = table.Count(tally.N), ratio(tally.X, tally.N)
		}
		t.Add(table.Text(term.Factor), table.Text(term.Name), table.Text(term.Against), known, rate,
			table.Number(term.Value), table.Number(term.StdError),
			table.Number(term.OddsRatio), table.Number(term.Low), table.Number(term.High), table.PValue(term.P))
	}
	return t
}

// forMachines keeps columns from people.
func forMachines(columns []table.Column) {
	for i := range columns {
		columns[i].For = table.Machines
	}
}

// tallyOf is the sum of the lots at a level of a factor.
func (r *regression) tallyOf(l stat.Level) (stat.Tally, bool) {
	f := slices.IndexFunc(r.model.Factors, func(f stat.Factor) bool { return f.Name == l.Factor })
	if f < 0 {
		return stat.Tally{}, false
	}
	return r.pooled[f][r.index[f][l.Name]], true
}

// dots draws the odds ratios, if they are not too many or none.
func (r *regression) dots() (table.Dots, bool) {
	if r.fit == nil || len(r.fit.Terms) == 0 || len(r.fit.Terms) > mostDrawn {
		return table.Dots{}, false
	}
	d := table.Dots{
		Title: "Odds, all else alike", Axis: "odds ratio", Log: true, Reference: table.Number(1),
		Desc: "To the left of the line fewer succeed than of the value compared with, to the right more; an interval across the line says that it is not known.",
	}
	for _, term := range r.fit.Terms {
		d.Rows = append(d.Rows, table.Dot{
			Label: term.Name + " against " + term.Against,
			Low:   table.Number(term.Low), Point: table.Number(term.OddsRatio), High: table.Number(term.High),
		})
	}
	return d, true
}

// mostPairs is how many pairs a table of them may have.
const mostPairs = 5000

// pairs compares the values of factors two by two.
func (r *regression) pairs(names []string) table.Table {
	t := table.Table{Name: "pairs", Title: "Two by two", Columns: []table.Column{
		{Name: "factor", Kind: table.KindText, Spare: 1},
		{Name: "level", Heading: "value", Kind: table.KindText},
		{Name: "against", Kind: table.KindText},
		{Name: "odds_ratio", Heading: "odds ratio", Kind: table.KindNumber, Low: "low", High: "high"},
		{Name: "low", Kind: table.KindNumber, For: table.Machines},
		{Name: "high", Kind: table.KindNumber, For: table.Machines},
		{Name: "p", Heading: "by luck", Kind: table.KindPValue, Spare: 2},
		{Name: "p_holm", Heading: "of so many pairs", Kind: table.KindPValue},
	}}
	if r.fit == nil {
		return t
	}
	for _, f := range r.model.Factors {
		if !slices.Contains(names, f.Name) {
			continue
		}
		if k := len(f.Levels); k*(k-1)/2 > mostPairs {
			t.Notes = append(t.Notes, fmt.Sprintf("%s has %s values, which make too many pairs to show.", f.Name, grouping(k)))
			continue
		}
		var terms []stat.Term
		var ps []float64
		for i, level := range f.Levels {
			for _, against := range f.Levels[:i] {
				if term, ok := r.fit.Contrast(f.Name, level, against); ok {
					terms = append(terms, term)
					ps = append(ps, term.P)
				}
			}
		}
		for i, adjusted := range stat.Holm(ps) {
			term := terms[i]
			t.Add(table.Text(f.Name), table.Text(term.Name), table.Text(term.Against),
				table.Number(term.OddsRatio), table.Number(term.Low), table.Number(term.High), table.PValue(term.P), table.PValue(adjusted))
		}
	}
	return t
}

// facts are the figures of the fit as a whole.
func (r *regression) facts() table.Facts {
	var dispersion, intercept, interceptError, baseline, lots, deviance, null table.Cell
	if r.fit != nil {
		dispersion = table.Number(r.fit.Dispersion.Pearson / float64(max(1, r.fit.Dispersion.DF)))
		if r.fit.Dispersion.DF == 0 {
			dispersion = table.Unknown()
		}
		lots = table.Count(r.fit.Rows)
		deviance, null = table.Number(r.fit.Deviance), table.Number(r.fit.NullDeviance)
		if i := r.fit.Intercept; i != nil {
			intercept, interceptError = table.Number(i.Value), table.Number(i.StdError)
			baseline = table.Rate(chance(i.Value))
		}
	}
	audience := table.Machines
	if r.fit != nil && len(r.fit.Tests) > 0 {
		audience = table.Everyone
	}
	return table.Facts{Title: "The fit", Items: []table.Fact{
		{Name: "lots", Value: lots, For: audience},
		{Name: "dispersion", Heading: "dispersion between lots (1 is luck alone)", Value: dispersion, For: audience},
		{Name: "baseline", Heading: r.words.rate + " of what the others are compared with", Value: baseline, For: audience},
		{Name: "intercept", Value: intercept, For: table.Machines},
		{Name: "intercept_std_error", Value: interceptError, For: table.Machines},
		{Name: "deviance", Value: deviance, For: table.Machines},
		{Name: "null_deviance", Value: null, For: table.Machines},
		{Name: "residual_df", Value: r.residualDF(), For: table.Machines},
	}}
}

func (r *regression) residualDF() table.Cell {
	if r.fit == nil {
		return table.Unknown()
	}
	return table.Count(r.fit.Dispersion.DF)
}

// chance is the probability of log odds.
func chance(logOdds float64) float64 { return 1 / (1 + math.Exp(-logOdds)) }
