package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/stat"
)

// phrases say how a value of a factor is told of attempts: grafts by cleft.
var phrases = map[string]string{
	"variety": "of %s", "stock": "on %s", "mother": "from %s", "wood": "with %s", "method": "by %s", "worker": "by %s",
	"place": "at %s", "month": "in %s", "season": "in season %s", "tag": "tagged %s", "ordinal": "at attempt %s",
	"wood-age": "with wood of %s", "kind": "as %s", "lot": "of lot %s",
}

// spoken is what a factor is called in a sentence.
func spoken(factor string) string {
	switch factor {
	case "worker":
		return "hand"
	case "wood-age":
		return "age of the wood"
	}
	return factor
}

// ofLevel is the attempts at a level: grafts by cleft.
func (r *regression) ofLevel(l stat.Level) string {
	return r.words.many + " " + fmt.Sprintf(phrases[l.Factor], l.Name)
}

// rows are the lots with a known outcome that are at a level.
func (r *regression) rows(l stat.Level) []int {
	f := slices.IndexFunc(r.model.Factors, func(f stat.Factor) bool { return f.Name == l.Factor })
	if f < 0 {
		return nil // of an interaction
	}
	level := r.index[f][l.Name]
	var rows []int
	for i, at := range r.model.Factors[f].At {
		if at == level && r.model.Counts[i].N > 0 {
			rows = append(rows, i)
		}
	}
	return rows
}

// mostCautions is how many confusions of one kind are told one by one.
const mostCautions = 4

// cautions say what the journal can't tell, before anyone reads the figures.
func (r *regression) cautions() []string {
	if r.fit == nil {
		return nil
	}
	var out []string
	for i, a := range r.fit.Aliased {
		if i == mostCautions {
			out = append(out, fmt.Sprintf("There are %s more such that can't be told apart.", grouping(len(r.fit.Aliased)-i)))
			break
		}
		out = append(out, r.alias(a))
	}
	for i, s := range r.fit.Separated {
		if i == mostCautions {
			out = append(out, fmt.Sprintf("There are %s more of which all succeeded or none.", grouping(len(r.fit.Separated)-i)))
			break
		}
		out = append(out, r.separation(s))
	}
	return out
}

// alias says why a level has no figure of its own.
func (r *regression) alias(a stat.Alias) string {
	of := r.rows(a.Of)
	var with []int
	var factors []string
	for _, l := range a.With {
		with = append(with, r.rows(l)...)
		if name := spoken(l.Factor); !slices.Contains(factors, name) {
			factors = append(factors, name)
		}
	}
	slices.Sort(with)
	apart := fmt.Sprintf("%s and %s can't be told apart there", spoken(a.Of.Factor), listed(factors))
	switch {
	case len(of) == 0 || len(a.With) == 0:
	case slices.Equal(of, with) && len(a.With) == 1:
		return r.same(a.Of, a.With[0]) + ": " + apart + "."
	case slices.Equal(of, with):
		var names []string
		for _, l := range a.With {
			names = append(names, l.Name)
		}
		return fmt.Sprintf("The %s are just those %s together: %s.", r.ofLevel(a.Of), phrased(a.With[0].Factor, someOf(names)), apart)
	case len(of)+len(with) == r.fit.Rows && len(a.With) == 1 && !slices.ContainsFunc(of, func(i int) bool { return slices.Contains(with, i) }):
		return fmt.Sprintf("All %s that are not %s are %s, and none is both: %s.",
			r.words.many, phrased(a.Of.Factor, a.Of.Name), phrased(a.With[0].Factor, a.With[0].Name), apart)
	}
	return fmt.Sprintf("%s %s says nothing that the rest does not say already, so it has no figure of its own.",
		a.Of.Factor, a.Of.Name)
}

func phrased(factor, value string) string {
	if format, ok := phrases[factor]; ok {
		return fmt.Sprintf(format, value)
	}
	return value
}

// same says that two levels hold the same lots.
func (r *regression) same(a, b stat.Level) string {
	if b.Factor == "worker" {
		a, b = b, a
	}
	if a.Factor == "worker" {
		return fmt.Sprintf("%s did every %s %s, and no other", a.Name, r.words.one, phrased(b.Factor, b.Name))
	}
	return fmt.Sprintf("All %s are %s, and no others are", r.ofLevel(a), phrased(b.Factor, b.Name))
}

// separation says why a level has no bounded figure.
func (r *regression) separation(s stat.Separation) string {
	tally, ok := r.tallyOf(s.Level)
	switch {
	case ok && s.Side == stat.NoSuccess:
		return fmt.Sprintf("None of %s %s %s, so there is no saying how low the odds are: it has no row below, and bears on no other.",
			r.words.counted(tally.N), phrased(s.Factor, s.Name), r.words.past())
	case ok && s.Side == stat.AllSuccess:
		return fmt.Sprintf("All of %s %s %s, so there is no saying how high the odds are: it has no row below, and bears on no other.",
			r.words.counted(tally.N), phrased(s.Factor, s.Name), r.words.past())
	}
	return fmt.Sprintf("%s %s met the other factors only where all succeeded or none did, so it has no figure.", s.Factor, s.Name)
}

// sentences say of each factor what is likely and what is not known.
func (r *regression) sentences() []string {
	all := stat.Pool(r.model.Counts)
	switch {
	case len(r.batches) == 0:
		return []string{r.words.none()}
	case all.N == 0:
		return []string{"Nothing is known yet: none has a verdict."}
	case r.fit == nil:
		return []string{fmt.Sprintf("Every known outcome is the same (%d of %d), so nothing can have made a difference.", all.X, all.N)}
	}
	var out []string
	for i, f := range r.model.Factors {
		if s := r.sentence(i, f); s != "" {
			out = append(out, strings.ToUpper(f.Name[:1])+f.Name[1:]+". "+s)
		}
	}
	for _, test := range r.fit.Tests {
		if names := strings.Split(test.Factor, " × "); len(names) == 2 {
			s := fmt.Sprintf("%s. Likely: nothing to see; the effect of one is not shown to hang on the other (p %s).", test.Factor, inWords(test.P))
			if test.P < significance {
				s = fmt.Sprintf("%s. Likely: the effect of one hangs on the other (p %s), so neither has one figure that holds everywhere.", test.Factor, inWords(test.P))
			}
			out = append(out, s)
		}
	}
	return out
}

func (r *regression) sentence(i int, f stat.Factor) string {
	if slices.Contains(r.fit.Constant, f.Name) {
		return fmt.Sprintf("It is the same in all lots (%s), so nothing can be said of it.", r.onlyLevel(i))
	}
	at := slices.IndexFunc(r.fit.Tests, func(t stat.FactorTest) bool { return t.Factor == f.Name })
	if at < 0 {
		return "Nothing can be said of it by itself: see above what it can't be told apart from."
	}
	if r.interacts(i) {
		return ""
	}
	all := make([]rival, len(f.Levels))
	for level, name := range f.Levels {
		all[level] = rival{name: name, outcome: r.pooled[i][level]}
	}
	enough, rivals := contenders(all)
	for _, c := range enough {
		if rate, ok := r.adjusted(i, r.index[i][c.name]); ok {
			c.rate, c.score = rate, rate
			rivals = append(rivals, c)
		}
	}
	c := rank(r.words, rivals, r.fit.Dispersion, r.fit.Tests[at].P, func(a, b rival) (float64, bool) {
		term, ok := r.fit.Contrast(f.Name, a.name, b.name)
		return term.P, ok
	})
	if said := c.sentences(); len(said) > 0 {
		return strings.Join(said, " ")
	}
	if p := r.fit.Tests[at].P; p < significance {
		return fmt.Sprintf("Likely: it makes a difference (p %s), where all succeeded or none did: see above.", inWords(p))
	}
	return "Too little is known to compare its values."
}

func (r *regression) onlyLevel(i int) string {
	for level, tally := range r.pooled[i] {
		if tally.N > 0 {
			return r.model.Factors[i].Levels[level]
		}
	}
	return ""
}

func (r *regression) interacts(i int) bool {
	return slices.ContainsFunc(r.model.Interactions, func(pair [2]int) bool { return slices.Contains(pair[:], i) })
}

// adjusted is the rate of a level with all else alike: the raw rate of the
// commonest level, its odds moved by the ratio between the two.
func (r *regression) adjusted(i, level int) (float64, bool) {
	names := r.model.Factors[i].Levels
	common := 0
	for j, tally := range r.pooled[i] {
		if tally.N > r.pooled[i][common].N {
			common = j
		}
	}
	rate := r.pooled[i][common].Rate()
	if level == common {
		return rate, true
	}
	term, ok := r.fit.Contrast(r.model.Factors[i].Name, names[level], names[common])
	return chance(math.Log(rate/(1-rate)) + term.Value), ok
}

// notes say how the figures were reckoned.
func (r *regression) notes(n *nursery.Nursery, o Options) []string {
	var notes []string
	if r.fit != nil && len(r.fit.Tests) > 0 {
		note := "Logistic regression on lots, by maximum likelihood"
		if r.fit.Dispersion.Phi() > 1 {
			note += "; lots differ more than luck would have them, so intervals and tests are wider by that (quasi-likelihood)"
		}
		notes = append(notes, note+".",
			"By luck: how often luck alone would make as much of a difference. Of 20 rows one is below 0.05 by luck alone; the sentences allow for that (Holm).",
			"Shares in the sentences are with all else alike.")
	}
	if s := passedOver(n, o); s != "" {
		notes = append(notes, s)
	}
	return notes
}
