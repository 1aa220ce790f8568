package report

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"sync"

	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/cost"
	"github.com/budstick/budstick/report/table"
)

var season = &Report{
	Name:    "season",
	Summary: "the season on a page, and as a book: what took, what was lost, earned and sold, what stands, what next",
	Long: `One season, named by the year in which it ends. Without a year it is the season of the last day, once half of it has
passed, and until then the one before.

As text it is one page. With --as html it is the book of the season's end, one page for a browser that needs nothing from
outside and prints well: what was done, the take with its intervals, survival, losses by cause and stage, where that came
from which was sold, the money, what stands at the end, a plan for the next season, and every caution and doubtful figure.
With --output the long tables, of which the book shows the beginning, are written beside it as CSV.`,
	Example: "2026",
	Subject: OneSeason,
	Takes:   Found,
	Build:   buildSeason,
}

// A book is a season's report in the making.
type book struct {
	n        *nursery.Nursery
	o        Options // of the season
	period   Period
	lost     map[loss]int
	chapters []table.Doc
}

func buildSeason(n *nursery.Nursery, o Options) (*table.Doc, error) {
	if len(o.Periods) == 0 {
		o.Periods = []Period{seasonPeriod(n, lastSeason(n))}
	}
	if err := reaches(n, o.Period(), o.AsAt); err != nil {
		return nil, err
	}
	b := &book{n: n, o: Options{AsAt: o.AsAt, Periods: o.Periods}, period: o.Period()}
	b.lost = lostIn(n, b.period)
	if err := b.write(); err != nil {
		return nil, err
	}
	b.chapters = append(b.chapters, b.doubts(o.Findings))
	doc := calendar(n, b.o, "season", upperFirst(cmp.Or(b.period.Name, "the season")))
	doc.Cautions = b.cautions()
	doc.Body = b.page(o.Findings)
	doc.Chapters, doc.Bound = b.chapters, true
	return doc, nil
}

// write writes the chapters, all at once since none needs another.
func (b *book) write() error {
	parts := []func() ([]table.Doc, error){
		b.done,
		func() ([]table.Doc, error) { return b.takes(nursery.GraftBatch) },
		func() ([]table.Doc, error) { return b.takes(nursery.LayerBatch) },
		func() ([]table.Doc, error) { return b.takes(nursery.CuttingBatch) },
		func() ([]table.Doc, error) { return b.takes(nursery.SeedBatch) },
		func() ([]table.Doc, error) { return []table.Doc{lossChapter(b.o, b.lost)}, nil },
		b.origins, b.money, b.next,
	}
	written, faults := make([][]table.Doc, len(parts)), make([]error, len(parts))
	var wait sync.WaitGroup
	for i, part := range parts {
		wait.Go(func() { written[i], faults[i] = part() })
	}
	wait.Wait()
	b.chapters = slices.Concat(written...)
	return errors.Join(faults...)
}

// chapter makes a whole report a chapter.
func chapter(r *Report, n *nursery.Nursery, o Options, title string) (table.Doc, error) {
	doc, err := r.Build(n, o)
	if err != nil {
		return table.Doc{}, err
	}
	doc.Title = title
	return *doc, nil
}

// takenBy is how the first chapter on attempts of a kind parts them.
func takenBy(kind nursery.BatchKind) []string {
	if kind == nursery.GraftBatch {
		return []string{"method"}
	}
	return []string{"variety"}
}

// takes are the chapters on attempts of a kind: their take, and of grafts their
// survival.
func (b *book) takes(kind nursery.BatchKind) ([]table.Doc, error) {
	o := b.o
	o.Kind, o.By = kind, takenBy(kind)
	batches := chosen(b.n, o)
	if len(batches) == 0 {
		return nil, nil
	}
	words := wordings[kind]
	first, err := chapter(take, b.n, o, fmt.Sprintf("%s, by %s", words.title, o.By[0]))
	if err != nil {
		return nil, err
	}
	if dots := newTakeTable(b.n, o, o.By, batches).dots(first.Title); len(dots.Rows) > 1 {
		first.Body = slices.Insert(first.Body, 1, table.Block(dots))
	}
	if kind != nursery.GraftBatch {
		return []table.Doc{first}, nil
	}
	alive, err := chapter(survival, b.n, o, "Survival of "+words.many+", by method")
	if err != nil {
		return nil, err
	}
	o.By = []string{"variety"}
	second, err := chapter(take, b.n, o, words.title+", by variety")
	return []table.Doc{first, second, alive}, err
}

// dots draws the take of groups on one scale.
func (t *takeTable) dots(title string) table.Dots {
	dots := table.Dots{Title: title, Axis: t.words.rate, Reference: table.Rate(t.all.outcome.Rate()),
		Desc: "Each line reaches as far as the true share may lie, 19 times in 20; the line down the middle is the share of all together."}
	for i, g := range t.groups {
		if sum := t.sums[i]; sum.outcome.N > 0 && len(dots.Rows) < mostDrawn {
			cells := rateCells(sum.outcome, t.between, sum.perLot)
			dots.Rows = append(dots.Rows, table.Dot{Label: g.name(), Point: cells[0], Low: cells[3], High: cells[4]})
		}
	}
	return dots
}

// money are the chapters of what was earned and of what stood at the end of the
// season, or stands now, at the cost with which the money is closed. Where money
// can't be added up, the book says why and goes on.
func (b *book) money() ([]table.Doc, error) {
	o := b.o
	o.By = profitBy[:1]
	n, day := b.n, b.o.AsAt
	var wait sync.WaitGroup
	if b.period.Last < day {
		day = b.period.Last
		wait.Go(func() { n = nursery.Replay(b.n.Pages, day) })
	}
	earned := table.Doc{Name: "profit"}
	e, err := earn(b.n, o)
	refusal := (*cost.Refusal)(nil)
	switch {
	case errors.As(err, &refusal):
		earned.Notes = []string{"Nothing could be added up: " + refusal.Error()}
	case err == nil:
		earned = *e.report()
	}
	earned.Title = "What was earned"
	wait.Wait()
	costs := stockCost{}
	if e != nil {
		costs = stockClosing(n, e.book)
	}
	stands := *stockReport(n, Options{AsAt: day}, costs)
	stands.Title = "What stands on " + day.Long()
	if refusal != nil {
		err = nil
	}
	return []table.Doc{earned, stands}, err
}

// cautions are what to mind, each once: those of the work that was done, and
// those of the chapters.
func (b *book) cautions() []string {
	list := workCautions(b.n, b.period)
	for _, c := range b.chapters {
		for _, caution := range c.Cautions {
			if !slices.Contains(list, caution) {
				list = append(list, caution)
			}
		}
	}
	return list
}

// total is the total of a column of a chapter's table.
func (b *book) total(chapter, name, column string) (table.Cell, bool) {
	for _, c := range b.chapters {
		for _, t := range c.Tables() {
			at := slices.IndexFunc(t.Columns, func(c table.Column) bool { return c.Name == column })
			if c.Name == chapter && t.Name == name && at >= 0 && t.Total != nil {
				return t.Total[at], true
			}
		}
	}
	return table.Cell{}, false
}
