package report

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/stat"
	"github.com/budstick/budstick/report/table"
)

// confidence is that of every interval in the reports.
const confidence = 0.95

var take = &Report{
	Name:    "take",
	Summary: "what took, by method, mother, hand, month or any other",
	Long: `The take is the share of attempts that succeeded, of those whose outcome is known: one stock worked once is one
attempt, whatever the scions on it. First attempts only, unless --attempts says otherwise, since a stock that is worked
again is a weaker one. Sums are divided by sums; percentages are never averaged. With --kind layer or cutting it is the
share that rooted; with --kind seed the share of the seeds sown that came up, as soon as somebody has looked at them.

The interval is Wilson's at 95 %, widened where lots differ from each other by more than luck. Rows are in the order of
the take drawn in: small groups are drawn towards the rest (a beta-binomial law, fitted by maximum likelihood), so that 2
of 2 do not lead the table. Where much is not known, at least and at most count all of that against the take, and for it.

A verdict before the first-check day is an early look, and provisional until a later check. A sample moves no count; what
it tells stands in a table of its own. So does what has a take of its own: stocks that were worked again, stocks with
several scions, the two unions of an interstock, limbs of standing trees, layers after they were severed.

Below the table stands what is likely, what is not known, and how many more attempts would settle it. What is called
likely would come about by luck less than once in 20 such tables, the pairs compared taken together (Holm).`,
	Example: "--by method,worker --season 2026",
	Takes:   Spans | Filters | Groups | Kinds | Ordinals,
	By:      dimensionNames(),
	Build:   buildTake,
}

// askedFor is what rows or factors are made of: each once, or else what a report
// chooses itself.
func askedFor(by []string, instead ...string) []string {
	if len(by) == 0 {
		return instead
	}
	var once []string
	for _, name := range by {
		if !slices.Contains(once, name) {
			once = append(once, name)
		}
	}
	return once
}

// A takeTable is the take of some groups, reckoned together since each tells
// something of the others.
type takeTable struct {
	words   wording
	kind    nursery.BatchKind
	by      []string
	groups  []group
	sums    []tallied // of the groups
	all     tallied
	between stat.Overdispersion
	spread  stat.Spread
	drawnIn []float64 // the take of each group drawn towards the others
}

func buildTake(n *nursery.Nursery, o Options) (*table.Doc, error) {
	if err := askable(n, o); err != nil {
		return nil, err
	}
	by := askedFor(o.By, "variety")
	batches := chosen(n, o)
	t := newTakeTable(n, o, by, batches)
	doc := cohort(n, o, "take", fmt.Sprintf("%s by %s", t.words.title, listed(by)))
	doc.Body = []table.Block{t.table(batches)}
	doc.Body = append(doc.Body, t.special(n, o)...)
	doc.Notes = t.notes(n, o)
	return doc, nil
}

func newTakeTable(n *nursery.Nursery, o Options, by []string, batches []*nursery.Batch) *takeTable {
	t := &takeTable{words: wordings[o.Kind], kind: o.Kind, by: by, groups: grouped(n, batches, by)}
	t.all = tallyUp(batches, o.AsAt)
	perLot := make([][]stat.Tally, len(t.groups))
	outcomes := make([]stat.Tally, len(t.groups))
	for i, g := range t.groups {
		sum := tallyUp(g.batches, o.AsAt)
		t.sums = append(t.sums, sum)
		perLot[i], outcomes[i] = sum.perLot, sum.outcome
	}
	t.between = stat.BetweenLots(perLot...)
	t.spread = stat.FitSpread(outcomes)
	for _, of := range outcomes {
		t.drawnIn = append(t.drawnIn, t.spread.DrawnIn(of))
	}
	return t
}

// ranked reports whether the rows are rivals, of which a reader wants to know
// the best.
func (t *takeTable) ranked() bool {
	return len(t.by) == 1 && len(t.groups) > 1 && !dimensionNamed(t.by[0]).running && t.spread.Edge != stat.NoSpread
}

// table holds a row for each group.
func (t *takeTable) table(batches []*nursery.Batch) table.Table {
	rows := table.Table{Name: "rows", Grouped: true, Columns: append(groupColumns(t.by), t.columns()...)}
	order := make([]int, len(t.groups))
	for i := range order {
		order[i] = i
	}
	if t.ranked() {
		known := func(i int) int { return min(t.sums[i].outcome.N, 1) }
		slices.SortStableFunc(order, func(a, b int) int {
			return cmp.Or(cmp.Compare(known(b), known(a)), cmp.Compare(t.drawnIn[b], t.drawnIn[a]))
		})
	}
	for _, i := range order {
		rows.Rows = append(rows.Rows, append(t.groups[i].cells(), t.cells(t.sums[i], table.Rate(t.drawnIn[i]))...))
	}
	if len(t.groups) > 1 {
		rows.Total = append(make([]table.Cell, len(t.by)), t.cells(t.all, table.Unknown())...)
		rows.Total[0] = table.Text("all")
	}
	rows.Notes = t.verdict(batches)
	return rows
}

const firstOnly = "First attempts only; what was worked again is left out."

// notes say in words how the figures were reckoned and how far they go.
func (t *takeTable) notes(n *nursery.Nursery, o Options) []string {
	var notes []string
	add := func(format string, args ...any) { notes = append(notes, fmt.Sprintf(format, args...)) }
	switch {
	case o.Kind == nursery.SeedBatch:
		add("Of the seeds sown, less those taken out before they came up, and only where somebody has looked.")
	case o.Kind == nursery.CuttingBatch:
	case o.Attempts == First:
		add(firstOnly)
	case o.Attempts == Again:
		add("Second and later attempts only, on stocks that are weaker for it.")
	default:
		add("All attempts; what was worked twice counts twice. A second attempt is on a weaker stock: compare methods and hands by the first.")
	}
	if t.between.Rho() > 0 {
		add("%s, so the intervals are wider than by the count alone%s.", lotsDiffer(t.between), fewLots(t.between))
	}
	if t.ranked() {
		add("Drawn in: small groups are drawn towards the rest (beta-binomial, maximum likelihood). The rows are in this order.")
	}
	if t.all.limbs > 0 {
		add("%s of the attempts are limbs of standing trees.", grouping(t.all.limbs))
	}
	if t.all.early > 0 {
		add("%s came before the first-check day.", counted(t.all.early, "verdict", "verdicts"))
	}
	if t.all.muchOpen() {
		add("Of %s, %s: they count neither way.", t.words.counted(t.all.made), t.all.inTheOpen())
	}
	if s := passedOver(n, o); s != "" {
		add("%s", s)
	}
	return notes
}

// fewLots says that the dispersion itself is known from few lots, where it is.
func fewLots(lots stat.Overdispersion) string {
	if lots.DF >= 10 {
		return ""
	}
	return ", and there are few lots to tell it by, which widens them again"
}

// inTheOpen says how many attempts have no outcome, and why.
func (t tallied) inTheOpen() string {
	var parts []string
	if n := t.waiting(); n > 0 {
		parts = append(parts, grouping(n)+" still wait for a verdict")
	}
	if t.left > 0 {
		parts = append(parts, grouping(t.left)+" left before one")
	}
	return listed(parts)
}

// passedOver says what a filter for one mother or hand leaves out because it
// is that one's only in part.
func passedOver(n *nursery.Nursery, o Options) string {
	if len(o.Filters) == 0 {
		return ""
	}
	var names []string
	made := 0
	for _, b := range n.Batches {
		if b.Kind != o.Kind || !o.Period().Contains(b.Day) || !o.Attempts.has(b.Ordinal) || passes(n, b, o.Filters) {
			continue
		}
		for _, f := range o.Filters {
			value := dimensionNamed(f.Name).of(n, b)
			members := strings.Split(value, " + ")
			if len(members) > 1 && slices.ContainsFunc(members, func(m string) bool { return sameName(m, f.Value) }) {
				made += int(b.Made)
				if !slices.Contains(names, value) {
					names = append(names, value)
				}
			}
		}
	}
	if made == 0 {
		return ""
	}
	return fmt.Sprintf("Left out: %s of %s, which nobody can share out.", wordings[o.Kind].counted(made), someOf(names))
}
