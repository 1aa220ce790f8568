package report

import (
	"cmp"
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/cost"
	"github.com/budstick/budstick/report/money"
)

// motherRecords are the records of all mothers, by name.
type motherRecords struct {
	n        *nursery.Nursery
	options  Options
	of       map[string]*motherRecord
	order    []*motherRecord
	currency string // empty where money can't be told
	places   int
}

// record finds the record of what names stand for, or begins it; nil where the
// filters leave it out.
func (m *motherRecords) record(names []string) *motherRecord {
	names = slices.Compact(slices.Sorted(slices.Values(names)))
	if len(names) == 0 {
		return nil
	}
	name := joined(names)
	if r, ok := m.of[name]; ok {
		return r
	}
	r := &motherRecord{name: name, set: len(names) > 1, crops: map[int]*crop{}}
	if t, ok := m.n.Thing(names[0]); ok {
		r.variety = varietyOfFlow(m.n, &cost.Flow{Thing: t})
		if !m.passes(t, r) {
			r = nil
		}
	}
	m.of[name] = r
	if r != nil {
		m.order = append(m.order, r)
		slices.SortFunc(m.order, func(a, b *motherRecord) int {
			return cmp.Or(cmp.Compare(a.variety, b.variety), naturally(a.name, b.name))
		})
	}
	return r
}

// passes applies the filters that a mother can answer: its variety, its place
// and its name.
func (m *motherRecords) passes(t nursery.Thing, r *motherRecord) bool {
	return letThrough(m.options.Filters, func(filter string) string {
		return map[string]string{"variety": r.variety, "mother": r.name, "place": placeOfFlow(m.n, &cost.Flow{Thing: t, Day: m.options.AsAt})}[filter]
	})
}

func (r *motherRecord) crop(year int) *crop {
	c := r.crops[year]
	if c == nil {
		c = &crop{}
		r.crops[year] = c
	}
	return c
}

func labelsOf(names []fact.Name, n *nursery.Nursery) (list []string) {
	for _, name := range names {
		if t, ok := n.Thing(name.Text); ok {
			list = append(list, motherName(nursery.Source{Thing: t}))
		}
	}
	return list
}

// picks reads the crops.
func (m *motherRecords) picks() {
	for _, e := range m.n.Entries {
		p, ok := e.Effect.(*fact.Pick)
		if !ok || !m.options.Period().Contains(e.Day()) {
			continue
		}
		r := m.record(labelsOf(p.From, m.n))
		if r == nil {
			continue
		}
		c := r.crop(m.season(e.Day()))
		c.picked = true
		c.about = c.about || p.Mass.About || p.Fruit.About
		r.about = r.about || c.about
		c.fruit += int64(p.Fruit.N)
		if p.Mass.Given {
			kg := kilograms(p.Mass)
			c.mass, r.mass = c.mass.Add(kg), r.mass.Add(kg)
			if p.Fruit.Given {
				c.weighed, c.counted = c.weighed.Add(kg), c.counted+int64(p.Fruit.N)
			}
		}
	}
}

// wood counts the scions cut from each, and those that went to the bench
// straight from the tree.
func (m *motherRecords) wood() {
	add := func(from []nursery.Source, scions int64, day fact.Date) {
		if !m.options.Period().Contains(day) || scions <= 0 {
			return
		}
		var names []string
		for _, s := range from {
			if s.Thing != nil {
				names = append(names, motherName(s))
			}
		}
		if r := m.record(names); r != nil {
			r.scions += scions
			r.crop(m.season(day)).scions += scions
		}
	}
	for _, b := range m.n.Bundles {
		add(b.From, int64(b.Count), b.Day)
	}
	for _, b := range m.n.Batches {
		if b.Kind != nursery.GraftBatch || len(b.Wood) == 0 {
			continue
		}
		if _, cut := b.Wood[0].Thing.(*nursery.Bundle); !cut {
			add(b.Wood, int64(b.Made)*int64(b.ScionsEach), b.Day)
		}
	}
}

// attempts gives each mother the grafts with its wood.
func (m *motherRecords) attempts() {
	for _, b := range m.n.Batches {
		if b.Kind != nursery.GraftBatch || !m.options.Period().Contains(b.Day) {
			continue
		}
		names := mothersOf(b)
		if !slices.ContainsFunc(names, func(name string) bool { _, ok := m.n.Thing(name); return !ok }) { // not bought
			if r := m.record(names); r != nil {
				r.batches = append(r.batches, b)
			}
		}
	}
}

// money adds what fruit brought in and what the trees made of the wood earned.
func (m *motherRecords) money() error {
	o := m.options
	period := o.Period()
	book, err := cost.Ready(m.n).Follow(cost.Terms{AsAt: o.AsAt, Until: period.Last}, func(f *cost.Flow) {
		if f.Day < period.First || f.Kind != cost.Sold && f.Kind != cost.Returned {
			return
		}
		switch f.Enterprise {
		case cost.Fruit:
			sale := f.Entry.Effect.(*fact.Leave)
			if r := m.record(labelsOf([]fact.Name{sale.Of}, m.n)); r != nil {
				r.fruit = r.fruit.Add(f.Revenue)
				c := r.crop(m.season(f.Day))
				c.revenue = c.revenue.Add(f.Revenue)
			}
		case cost.Trees:
			if r := m.of[motherOfFlow(m.n, f)]; r != nil && f.State != fact.Failed {
				r.margin = r.margin.Add(f.Revenue).Sub(f.Load.Cost())
				if f.Kind == cost.Sold {
					r.trees += f.N
				}
			}
		}
	})
	if err != nil {
		m.forgetMoney()
		return err
	}
	m.currency, m.places = book.Currency, book.Places
	for i := range book.Standing {
		s := &book.Standing[i]
		if s.Lot == nil {
			continue
		}
		if r := m.of[motherOfFlow(m.n, &cost.Flow{Thing: s.Lot})]; r != nil {
			r.trees += s.Living
		}
	}
	return nil
}

// forgetMoney takes back what was added before money was refused. How many
// trees were made is not known then either.
func (m *motherRecords) forgetMoney() {
	for _, r := range m.order {
		r.fruit, r.margin, r.trees = money.Amount{}, money.Amount{}, 0
		for _, c := range r.crops {
			c.revenue = money.Amount{}
		}
	}
}
