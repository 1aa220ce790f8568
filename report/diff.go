package report

import (
	"cmp"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

var diff = &Report{
	Name:    "diff",
	Summary: "two seasons, or two journals, side by side: take, cost, revenue, losses, what is new",
	Long: `What changed between two seasons (--season 2025 --season 2026; the last two, unless it is said), or between two journals
or folders. The difference is always the second less the first.

The take is compared at equal age: as it was known so many days after each attempt (--age; otherwise 120 for grafts and
cuttings, 240 for layers, 180 for seed: common practice, no source). Attempts that are younger on the last day are not ripe;
where there are no others the take is left blank, since it is not bad but not known.

The interval of a difference is Newcombe's hybrid score interval, widened where lots differ by more than luck; p is Fisher's
exact test, which takes each attempt for itself. The change of the whole is split in two: what other mothers, methods and
stocks made of it (the mix), and what became of like work (Kitagawa's components, with the standardised rates both ways).
The change of revenue is split into price, volume and mix, to the cent.`,
	Example: "--season 2025 --season 2026 --by method",
	Takes:   Pair | Groups | Kinds | Ordinals | Ages | Filters,
	By:      dimensionNames(),
	Build:   buildDiff,
}

// ripeAfter is at which age attempts are compared.
var ripeAfter = [...]int{nursery.GraftBatch: 120, nursery.LayerBatch: 240, nursery.CuttingBatch: 120, nursery.SeedBatch: 180}

// A side is one of two that are compared.
type side struct {
	n       *nursery.Nursery
	name    string
	short   string  // at the head of a column
	options Options // of this side alone
}

func buildDiff(n *nursery.Nursery, o Options) (*table.Doc, error) {
	for _, on := range []*nursery.Nursery{n, o.Other} {
		if on == nil {
			continue
		}
		if err := askable(on, o); err != nil && (o.Other == nil || on == n) {
			return nil, err
		}
	}
	a, b := sides(n, o)
	for _, s := range []side{a, b} {
		if err := reaches(s.n, s.options.Period(), s.options.AsAt); err != nil {
			return nil, err
		}
	}
	d := newTakeDiff(a, b, o)
	doc := heading(n, Options{AsAt: o.AsAt, Filters: o.Filters}, "diff", upperFirst(a.name)+" and "+b.name+" side by side", table.NoBasis)
	split, compared := d.split()
	doc.Body = []table.Block{d.table()}
	if d.drawable() {
		doc.Body = append(doc.Body, d.drawing())
	}
	if compared {
		doc.Body = append(doc.Body, split)
	}
	money, notes := moneyDiff(a, b)
	doc.Body = append(doc.Body, money...)
	doc.Body = append(doc.Body, lossDiff(a, b), newAndGone(a, b))
	doc.Notes = append(d.notes(), notes...)
	return doc, nil
}

// sides are the two that are compared: two seasons of one journal, or two
// journals.
func sides(n *nursery.Nursery, o Options) (a, b side) {
	if o.Other != nil {
		a, b = side{n: n, options: o}, side{n: o.Other, options: o}
		if o.AsAt == n.Last { // nobody asked for a day
			b.options.AsAt = o.Other.Last
		}
		if a.name, b.name = farmName(a.n), farmName(b.n); a.name == b.name || a.name == "" || b.name == "" {
			a.name, b.name = "the first journal", "the second journal"
		}
		a.short, b.short = "first", "second"
		return a, b
	}
	periods := o.Periods
	switch len(periods) {
	case 0:
		last := lastSeason(n)
		periods = []Period{seasonPeriod(n, last-1), seasonPeriod(n, last)}
	case 1:
		year := fact.SeasonOf(max(periods[0].First, 1), n.SeasonFrom()).Year()
		periods = []Period{seasonPeriod(n, year-1), periods[0]}
	}
	a, b = side{n: n, name: periods[0].Name, options: o}, side{n: n, name: periods[1].Name, options: o}
	a.options.Periods, b.options.Periods = periods[:1], periods[1:2]
	a.short, b.short = strings.TrimPrefix(a.name, "season "), strings.TrimPrefix(b.name, "season ")
	return a, b
}

// seasonPeriod is the season named by a year.
func seasonPeriod(n *nursery.Nursery, year int) Period {
	s := n.Season(year)
	return Period{Name: "season " + strconv.Itoa(year), First: s.First, Last: s.Last}
}

// lastSeason is the season of the last day, once half of it has passed, and
// until then the one before, if the journal reaches back so far.
func lastSeason(n *nursery.Nursery) int {
	s := n.Season(0)
	if first := firstDay(n); n.Last-s.First < (s.Last-s.First)/2 && first != 0 && first < s.First {
		return s.Year() - 1
	}
	return s.Year()
}

// errNoDay says that a journal holds standing facts alone.
var errNoDay = errors.New("nothing is written under a day yet; write a day on a line of its own, such as 2026-03-02, and below it what was done")

// firstDay is the first day that anything is written under, 0 where none is.
func firstDay(n *nursery.Nursery) fact.Date {
	for _, e := range n.Entries {
		if e.Date != 0 {
			return e.Date
		}
	}
	return 0
}

// reaches refuses a period of which nothing can be written yet, or any more: a
// page of noughts would tell that nothing was done in it.
func reaches(n *nursery.Nursery, p Period, asAt fact.Date) error {
	name := cmp.Or(p.Name, "the time that was asked for")
	switch first := firstDay(n); {
	case first == 0:
		return errNoDay
	case p.First > asAt:
		return fmt.Errorf("%s begins on %s, and the journal is known up to %s", name, p.First.Long(), asAt.Long())
	case p.Last != 0 && p.Last < first:
		return fmt.Errorf("%s ended on %s, and the journal begins on %s", name, p.Last.Long(), first.Long())
	}
	return nil
}

func upperFirst(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' {
		return s
	}
	return fmt.Sprintf("%c%s", s[0]-'a'+'A', s[1:])
}
