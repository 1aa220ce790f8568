package report

import (
	"fmt"
	"slices"
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/money"
	"github.com/budstick/budstick/report/stat"
	"github.com/budstick/budstick/report/table"
)

var mothers = &Report{
	Name:    "mothers",
	Summary: "the mother trees: what each bore, what its fruit brought in, and what its wood took",
	Long: `The record of each tree that was picked from or gave wood: kilograms and the mass of a fruit, what its fruit brought in,
the scions cut, how the grafts with its wood took, and the trees made of it. A limb that is named for itself has a record of
its own. What was picked or cut from several trees at once stays with the set, since nobody can say whose it was.

Which mother is worth cloning is a matter of several seasons: mothers of one variety are compared in the seasons in which
both were picked.`,
	Example: "--variety Amberlight",
	Takes:   Spans | Filters,
	Build:   buildMothers,
}

func buildMothers(n *nursery.Nursery, o Options) (*table.Doc, error) {
	m := &motherRecords{n: n, options: o, of: map[string]*motherRecord{}}
	m.picks()
	m.wood()
	m.attempts()
	refusal := m.money()
	doc := calendar(n, o, "mothers", "The mother trees")
	doc.Body = []table.Block{m.rows(), m.years()}
	if bars := m.bars(); len(bars.Rows) > 1 {
		doc.Body = append(doc.Body, bars)
	}
	doc.Notes = m.notes()
	if refusal != nil {
		doc.Notes = append(doc.Notes, "No money is told here. "+strings.ReplaceAll(refusal.Error(), "\n", " "))
	}
	return doc, nil
}

// fewSeasons is below how many seasons a crop says little of the tree: the same
// tree bears twice as much in one year as in another.
const fewSeasons = 3

// rows are the mothers, by variety.
func (m *motherRecords) rows() table.Table {
	priced := table.Everyone
	if m.currency == "" {
		priced = table.Machines
	}
	t := table.Table{Name: "rows", Columns: []table.Column{
		{Name: "mother", Kind: table.KindText, Group: true},
		{Name: "variety", Kind: table.KindText},
		{Name: "seasons", Heading: "seasons picked", Kind: table.KindCount, Spare: 3},
		{Name: "kg", Kind: table.KindQuantity, Unit: "kg", Spare: 4},
		{Name: "kg_a_season", Kind: table.KindQuantity, Unit: "kg"},
		{Name: "grams_each", Heading: "a fruit", Kind: table.KindQuantity, Unit: "g", Spare: 1},
		{Name: "revenue", Heading: "fruit sold", Kind: table.KindMoney, Spare: 2, For: priced},
		{Name: "wood", Heading: "scions", Kind: table.KindCount, Spare: 5},
		{Name: "made", Heading: "grafts", Kind: table.KindCount, For: table.Machines},
		{Name: "known", Kind: table.KindCount},
		{Name: "took", Kind: table.KindCount, For: table.Machines},
		{Name: "rate", Heading: "take", Kind: table.KindRate, Low: "wide_low", High: "wide_high"},
		{Name: "wide_low", Kind: table.KindRate, For: table.Machines},
		{Name: "wide_high", Kind: table.KindRate, For: table.Machines},
		{Name: "trees", Heading: "trees made", Kind: table.KindCount, Spare: 1},
		{Name: "tree_margin", Heading: "their margin", Kind: table.KindMoney, Spare: 2, For: priced},
	}}
	var perLot [][]stat.Tally
	for _, r := range m.order {
		perLot = append(perLot, tallyUp(r.batches, m.options.AsAt).perLot)
	}
	between := stat.BetweenLots(perLot...)
	for _, r := range m.order {
		t.Rows = append(t.Rows, m.cells(r, between))
	}
	return t
}

func (m *motherRecords) cells(r *motherRecord, between stat.Overdispersion) []table.Cell {
	name := table.Text(r.name)
	if r.set {
		name = name.With(table.Mixed)
	}
	seasons := m.seasonsOf(r)
	kg, aSeason, grams := table.Unknown(), table.Unknown(), table.Unknown()
	if len(seasons) > 0 {
		var marks []table.Mark
		if r.about {
			marks = append(marks, table.Estimated)
		}
		kg = table.Quantity(r.mass.String()).With(marks...)
		if len(seasons) < fewSeasons {
			marks = append(marks, table.FewData)
		}
		aSeason = table.Quantity(r.mass.MulFrac(1, int64(len(seasons))).Fixed(1)).With(marks...)
	}
	if g, ok := r.grams(); ok {
		grams = table.Quantity(g)
	}
	sum := tallyUp(r.batches, m.options.AsAt)
	rate, low, high := table.Unknown(), table.Unknown(), table.Unknown()
	if known := sum.outcome.N; known > 0 {
		wide := stat.WilsonWide(sum.outcome, between.Widening(sum.perLot), confidence)
		rate, low, high = table.Rate(sum.outcome.Rate()).With(sum.marks()...), table.Rate(wide.Low), table.Rate(wide.High)
	}
	return []table.Cell{
		name, table.Text(r.variety), table.Count(len(seasons)), kg, aSeason, grams, m.cash(r.fruit), table.Count(r.scions),
		table.Count(sum.made), table.Count(sum.known()), table.Count(sum.took), rate, low, high, table.Count(r.trees), m.cash(r.margin),
	}
}

func (m *motherRecords) cash(a money.Amount) table.Cell {
	if m.currency == "" {
		return table.Unknown()
	}
	return table.Money(a.Fixed(m.places), m.currency)
}

// years are the crops season by season.
func (m *motherRecords) years() table.Table {
	t := table.Table{Name: "seasons", Title: "Season by season", Columns: []table.Column{
		{Name: "mother", Kind: table.KindText, Group: true},
		{Name: "season", Kind: table.KindText, Group: true},
		{Name: "kg", Kind: table.KindQuantity, Unit: "kg"},
		{Name: "fruit", Kind: table.KindCount},
		{Name: "grams_each", Heading: "a fruit", Kind: table.KindQuantity, Unit: "g"},
		{Name: "revenue", Heading: "fruit sold", Kind: table.KindMoney},
		{Name: "wood", Heading: "scions", Kind: table.KindCount},
	}}
	for _, r := range m.order {
		for _, year := range r.years() {
			c := r.crops[year]
			kg, fruit, grams := table.Unknown(), table.Unknown(), table.Unknown()
			if c.picked {
				kg = table.Quantity(c.mass.String())
				if c.about {
					kg = kg.With(table.Estimated)
				}
			}
			if c.fruit > 0 {
				fruit = table.Count(c.fruit)
			}
			if g, ok := c.grams(); ok {
				grams = table.Quantity(g)
			}
			t.Add(table.Text(r.name), table.Text(fmt.Sprint(year)), kg, fruit, grams, m.cash(c.revenue), table.Count(c.scions))
		}
	}
	return t
}

// bars draw the crop of a season, of the mothers that were picked.
func (m *motherRecords) bars() table.Bars {
	b := table.Bars{Title: "A season's crop", Axis: "kg", Desc: "The mean of the seasons in which each was picked, in kilograms."}
	for _, r := range m.order {
		if seasons := m.seasonsOf(r); len(seasons) > 0 {
			b.Rows = append(b.Rows, table.Bar{Label: r.name + ", " + r.variety, Value: table.Quantity(r.mass.MulFrac(1, int64(len(seasons))).Fixed(1))})
		}
	}
	return b
}

// notes compare the mothers of a variety two by two.
func (m *motherRecords) notes() []string {
	var notes []string
	for i, a := range m.order {
		for _, b := range m.order[i+1:] {
			if a.variety == b.variety && !a.set && !b.set {
				if say := m.compared(a, b); say != "" {
					notes = append(notes, say)
				}
			}
		}
	}
	if len(m.order) == 0 {
		return []string{"Nothing was picked, and no wood was cut."}
	}
	notes = append(notes, "A crop is what was picked and written down. Take is of the grafts made in this time; trees made are those that were sold in it, or live.")
	return notes
}

// compared says of two mothers of a variety which bore more, season by season.
func (m *motherRecords) compared(a, b *motherRecord) string {
	both, more := 0, 0
	for _, year := range m.seasonsOf(a) {
		if slices.Contains(m.seasonsOf(b), year) {
			both++
			if a.crops[year].mass.Cmp(b.crops[year].mass) > 0 {
				more++
			}
		}
	}
	if both == 0 {
		return ""
	}
	if 2*more < both {
		a, b, more = b, a, both-more
	}
	when := fmt.Sprintf("in %d of the %d seasons", more, both)
	if both == 1 {
		when = "in the one season"
	}
	say := fmt.Sprintf("%s: %s bore more than %s %s in which both were picked", a.variety, a.name, b.name, when)
	switch {
	case both < fewSeasons:
		return say + "; too few to choose by."
	case more < both:
		return say + "; nothing to choose by."
	}
	return say + "."
}

// A motherRecord is what is known of a tree, a limb or a set of them.
type motherRecord struct {
	name, variety string
	set           bool // several, and nobody can say which
	about         bool
	mass          money.Amount // kg
	crops         map[int]*crop
	batches       []*nursery.Batch
	scions, trees int64
	fruit, margin money.Amount
}

// A crop is what a mother bore in a season, and the wood cut from it.
type crop struct {
	picked, about   bool
	mass            money.Amount // kg
	fruit           int64
	weighed         money.Amount // kg of fruit that were counted too
	counted, scions int64
	revenue         money.Amount
}

// years are the seasons with anything to tell, in order.
func (r *motherRecord) years() []int {
	var list []int
	for year := range r.crops {
		list = append(list, year)
	}
	slices.Sort(list)
	return list
}

// grams is the mean mass of a fruit, of those that were weighed and counted.
func (c *crop) grams() (string, bool) {
	if c.counted == 0 {
		return "", false
	}
	return c.weighed.MulFrac(1000, c.counted).Fixed(1), true
}

func (r *motherRecord) grams() (string, bool) {
	var all crop
	for _, c := range r.crops {
		all.weighed, all.counted = all.weighed.Add(c.weighed), all.counted+c.counted
	}
	return all.grams()
}

// seasonsOf are the seasons in which something was picked.
func (m *motherRecords) seasonsOf(r *motherRecord) []int {
	return slices.DeleteFunc(r.years(), func(year int) bool { return !r.crops[year].picked })
}

func (m *motherRecords) season(day fact.Date) int {
	return fact.SeasonOf(max(day, 1), m.n.SeasonFrom()).Year()
}
