package report

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/stat"
	"github.com/budstick/budstick/report/table"
)

// ripened is the attempts of a group on one side, at the age at which they are
// compared.
type ripened struct {
	made, unripe int
	pool         stat.Tally
	lots         []stat.Tally
}

func (r *ripened) add(b *nursery.Batch, age, asAt fact.Date) {
	if b.Day+age > asAt {
		r.unripe += int(b.Made)
		return
	}
	r.made += int(b.Made)
	if t := outcomeAt(b, age); t.N > 0 {
		r.pool.X += t.X
		r.pool.N += t.N
		r.lots = append(r.lots, t)
	}
}

// outcomeAt is the outcome of attempts as it was known at an age: without the
// verdicts of later looks.
func outcomeAt(b *nursery.Batch, age fact.Date) stat.Tally {
	t := outcome(b)
	for _, e := range b.Checks {
		if e.Day() <= b.Day+age {
			continue
		}
		for _, o := range e.Effect.(*fact.Check).Outcomes {
			switch o.Verdict {
			case fact.Took, fact.Rooted, fact.Up:
				t.X -= int(o.Count.N)
				if b.Kind != nursery.SeedBatch { // what has not come up has not come up
					t.N -= int(o.Count.N)
				}
			case fact.Fails, fact.Dead, fact.Upper, fact.Lower:
				if b.Kind != nursery.SeedBatch {
					t.N -= int(o.Count.N)
				}
			}
		}
	}
	t.N = max(t.N, 0)
	t.X = min(max(t.X, 0), t.N)
	if b.Kind == nursery.SeedBatch && (len(b.Checks) == 0 || b.Checks[0].Day() > b.Day+age) {
		return stat.Tally{} // nobody had looked
	}
	return t
}

// A takeDiff is the take of two sides by groups.
type takeDiff struct {
	a, b    side
	words   wording
	by      []string
	age     fact.Date
	names   [][]string // the values of the groups
	of      [2][]ripened
	all     [2]ripened
	between stat.Overdispersion
	batches [2][]*nursery.Batch
	origin  string // where the change comes from, in words
}

func newTakeDiff(a, b side, o Options) *takeDiff {
	d := &takeDiff{a: a, b: b, words: wordings[o.Kind], by: askedFor(o.By, "method"), age: fact.Date(o.Age)}
	if d.age == 0 {
		d.age = fact.Date(ripeAfter[o.Kind])
	}
	groups := map[string]*[2]ripened{}
	values := map[string][]string{}
	for i, s := range []side{a, b} {
		d.batches[i] = chosen(s.n, s.options)
		for _, g := range grouped(s.n, d.batches[i], d.by) {
			key := strings.Join(g.values, "\x00")
			if groups[key] == nil {
				groups[key], values[key] = &[2]ripened{}, g.values
			}
			for _, batch := range g.batches {
				groups[key][i].add(batch, d.age, s.options.AsAt)
				d.all[i].add(batch, d.age, s.options.AsAt)
			}
		}
	}
	keys := slices.SortedFunc(maps.Keys(groups), func(x, y string) int {
		return slices.CompareFunc(values[x], values[y], orderOfValues)
	})
	var lots [][]stat.Tally
	for _, key := range keys {
		d.names = append(d.names, values[key])
		for i := range d.of {
			d.of[i] = append(d.of[i], groups[key][i])
			lots = append(lots, groups[key][i].lots)
		}
	}
	d.between = stat.BetweenLots(lots...)
	return d
}

func (d *takeDiff) table() table.Table {
	unripe := table.Machines
	if d.all[0].unripe+d.all[1].unripe > 0 {
		unripe = table.Everyone
	}
	t := table.Table{Name: "rows", Title: d.words.title, Grouped: true, Columns: append(groupColumns(d.by),
		table.Column{Name: "took_a", Heading: d.words.took + " " + d.a.short, Kind: table.KindCount, Spare: 6},
		table.Column{Name: "known_a", Heading: "known " + d.a.short, Kind: table.KindCount},
		table.Column{Name: "unripe_a", Heading: "not ripe " + d.a.short, Kind: table.KindCount, Spare: 5, For: unripe},
		table.Column{Name: "took_b", Heading: d.words.took + " " + d.b.short, Kind: table.KindCount, Spare: 6},
		table.Column{Name: "known_b", Heading: "known " + d.b.short, Kind: table.KindCount},
		table.Column{Name: "unripe_b", Heading: "not ripe " + d.b.short, Kind: table.KindCount, Spare: 5, For: unripe},
		table.Column{Name: "rate_a", Heading: d.a.short, Kind: table.KindRate},
		table.Column{Name: "rate_b", Heading: d.b.short, Kind: table.KindRate},
		table.Column{Name: "difference", Kind: table.KindChange, Low: "wide_low", High: "wide_high"},
		table.Column{Name: "low", Kind: table.KindChange, For: table.Machines},
		table.Column{Name: "high", Kind: table.KindChange, For: table.Machines},
		table.Column{Name: "wide_low", Kind: table.KindChange, For: table.Machines},
		table.Column{Name: "wide_high", Kind: table.KindChange, For: table.Machines},
		table.Column{Name: "p", Kind: table.KindPValue, Spare: 3},
		table.Column{Name: "verdict", Kind: table.KindText},
	)}
	for i, values := range d.names {
		t.Add(append(group{values: values, mixed: make([]bool, len(values))}.cells(), d.cells(d.of[0][i], d.of[1][i])...)...)
	}
	if len(d.names) > 1 {
		t.Total = append(make([]table.Cell, len(d.by)), d.cells(d.all[0], d.all[1])...)
		t.Total[0] = table.Text("all")
	}
	t.Notes = []string{d.inWords()}
	if d.origin != "" {
		t.Notes = append(t.Notes, d.origin)
	}
	return t
}

// difference is b less a with its plain and its widened interval; ok is false
// where one of them is not known.
func (d *takeDiff) difference(a, b ripened) (diff float64, plain, wide stat.Interval, ok bool) {
	if a.pool.N == 0 || b.pool.N == 0 {
		return 0, plain, wide, false
	}
	plain = stat.Newcombe(b.pool, a.pool, confidence)
	wide = stat.NewcombeWide(b.pool, a.pool, d.between.Widening(b.lots), d.between.Widening(a.lots), confidence)
	return b.pool.Rate() - a.pool.Rate(), plain, wide, true
}

func (d *takeDiff) cells(a, b ripened) []table.Cell {
	cells := []table.Cell{
		table.Count(a.pool.X), table.Count(a.pool.N), table.Count(a.unripe), table.Count(b.pool.X), table.Count(b.pool.N), table.Count(b.unripe),
		rateOf(a), rateOf(b),
	}
	diff, plain, wide, ok := d.difference(a, b)
	if !ok {
		return append(cells, append(make([]table.Cell, 6), table.Text(missing(a, b)))...)
	}
	return append(cells, table.Change(diff), table.Change(plain.Low), table.Change(plain.High), table.Change(wide.Low), table.Change(wide.High),
		table.PValue(stat.Fisher(a.pool, b.pool).TwoSided), table.Text(verdictOn(wide)))
}

func rateOf(r ripened) table.Cell {
	switch {
	case r.pool.N == 0:
		return table.Unknown()
	case r.pool.N < fewKnown:
		return table.Rate(r.pool.Rate()).With(table.FewData)
	}
	return table.Rate(r.pool.Rate())
}

// missing says why two takes can't be compared.
func missing(a, b ripened) string {
	switch {
	case a.made+a.unripe == 0:
		return "new"
	case b.made+b.unripe == 0:
		return "gone"
	case a.pool.N == 0 && a.unripe > 0, b.pool.N == 0 && b.unripe > 0:
		return "not ripe"
	}
	return "not known"
}

// verdictOn says what an interval of a difference leaves open.
func verdictOn(i stat.Interval) string {
	switch {
	case i.Low > 0:
		return "better"
	case i.High < 0:
		return "worse"
	}
	return "may be luck"
}

// inWords says what can be said of the whole.
func (d *takeDiff) inWords() string {
	a, b := d.all[0], d.all[1]
	diff, _, wide, ok := d.difference(a, b)
	what := strings.ToLower(d.words.title)
	if !ok {
		return fmt.Sprintf("The %s can't be compared: %s.", what, map[string]string{
			"new":      "there is nothing in " + d.a.name + "; --kind asks about others than " + d.words.many,
			"gone":     "there is nothing in " + d.b.name + "; --kind asks about others than " + d.words.many,
			"not ripe": "what there is in one of them is not ripe", "not known": "of one of them nothing is known",
		}[missing(a, b)])
	}
	from := fmt.Sprintf("The %s went from %s in %s to %s in %s, %s points", what,
		percent(a.pool.Rate()), d.a.name, percent(b.pool.Rate()), d.b.name, signed(diff))
	between := fmt.Sprintf("between %s and %s, 19 times in 20", signed(wide.Low), signed(wide.High))
	switch verdictOn(wide) {
	case "better":
		return fmt.Sprintf("%s (%s): likely better, and not luck.", from, between)
	case "worse":
		return fmt.Sprintf("%s (%s): likely worse, and not luck.", from, between)
	}
	end := ""
	if need, ok := stat.PerGroup(a.pool.Rate(), b.pool.Rate(), d.between.Phi(), confidence, power); ok && need <= 100_000 {
		end = fmt.Sprintf(" If it is what it seems, about %s of each would tell.", d.words.counted(rounded(need)))
	}
	return fmt.Sprintf("%s (%s): luck and the differences between lots could make all of this.%s", from, between, end)
}

// signed writes a difference of shares in points, for a sentence.
func signed(x float64) string {
	points := math.Round(100 * x)
	if points == 0 {
		return "0"
	}
	return strings.Replace(fmt.Sprintf("%+.0f", points), "-", "−", 1)
}

// drawable reports whether any two takes can be compared.
func (d *takeDiff) drawable() bool {
	for i := range d.names {
		if _, _, _, ok := d.difference(d.of[0][i], d.of[1][i]); ok {
			return true
		}
	}
	return false
}

// drawing shows the differences with their intervals.
func (d *takeDiff) drawing() table.Dots {
	dots := table.Dots{Title: "The difference, by " + listed(d.by), Axis: "difference", Reference: table.Change(0),
		Desc: "Right of the line is better in " + d.b.name + ". Ranges that cross the line may be luck."}
	for i, values := range d.names {
		if diff, _, wide, ok := d.difference(d.of[0][i], d.of[1][i]); ok {
			dots.Rows = append(dots.Rows, table.Dot{Label: group{values: values}.name(), Low: table.Change(wide.Low), Point: table.Change(diff), High: table.Change(wide.High)})
		}
	}
	return dots
}

func (d *takeDiff) notes() []string {
	notes := []string{fmt.Sprintf("The difference is %s less %s. All attempts are compared as they were known %d days after.", d.b.name, d.a.name, d.age)}
	if unripe := d.all[0].unripe + d.all[1].unripe; unripe > 0 {
		notes = append(notes, fmt.Sprintf("%s are younger than that, not ripe, and count neither way.", upperFirst(d.words.counted(unripe))))
	}
	if d.between.Rho() > 0 {
		notes = append(notes, lotsDiffer(d.between)+", so the intervals are wider than by the count alone; p is not widened.")
	}
	if len(d.names) > 1 {
		notes = append(notes, "Of twenty rows without any difference about one looks better or worse by luck.")
	}
	return notes
}
