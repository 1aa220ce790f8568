package report

import (
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/cost"
	"github.com/budstick/budstick/report/money"
)

// An account is the sums of a group in one enterprise.
type account struct {
	values         []string
	sold, returned int64
	mass           money.Amount // of fruit sold by weight, in kg
	revenue        money.Amount
	load           cost.Load    // of what was sold, and for fruit of what was spent
	carried        money.Amount // of wood: what went into plants
	lost, given    cost.Load
	onHand, living int64
	again          int64 // of those sold or living: plants that had been sold and came back
	closing        cost.Load
	supposed       [supposedTakes]supposed // of trees
	end            *monthEnd               // of a month
}

// supposed is what a group comes to with another take of grafts: what was sold
// or lives, in millionths of a plant, what that costs, and what was earned.
type supposed struct {
	trees        int64
	cost, result money.Amount
}

// takes are those that are supposed: a point more, and as many points fewer and
// more as are drawn.
var takes = []int{1, -swingTake, swingTake}

// The indexes of takes.
const (
	onePoint = iota
	fewerPoints
	morePoints
	supposedTakes
)

func (a *account) margin() money.Amount { return a.revenue.Sub(a.load.Cost()) }

// isNone reports whether there is nothing to tell of the group.
func (a *account) isNone() bool {
	return a.sold == 0 && a.returned == 0 && a.onHand == 0 && a.revenue == (money.Amount{}) && a.mass == (money.Amount{}) &&
		a.load == cost.Load{} && a.carried == money.Amount{} && a.lost == cost.Load{} && a.closing == cost.Load{}
}

// earnings adds up the flows of a stretch of time.
type earnings struct {
	n       *nursery.Nursery
	options Options
	facets  []facet
	book    *cost.Book

	accounts [cost.Enterprises]map[string]*account
	order    [cost.Enterprises][]*account
	fixed    bool       // the account of a lot does not hang on the sale
	lots     []lotSales // in the order of the nursery's
	soldFrom []*lotSales
	whole    [cost.Enterprises]sums
	finished account     // of trees that are for sale and no stocks
	ends     []*monthEnd // where months are asked for
}

// lotSales are what was sold of a lot of trees, with its accounts where they are
// known: of its plants, and of those that failed, which are called otherwise.
type lotSales struct {
	lot           *nursery.Lot
	account       [2]*account
	plants        int64
	revenue, cost money.Amount
}

// sums are the terms of the identity of an enterprise since the journal began:
// before the period, and to its end.
type sums struct{ before, after terms }

// terms are what came in, what went out, and the revenue.
type terms struct {
	spent, used, sold, given, planted, lost, unallocated money.Amount
	revenue                                              money.Amount
}

// earn follows the money of the period that the options ask for.
func earn(n *nursery.Nursery, o Options) (*earnings, error) {
	e := &earnings{n: n, options: o, lots: make([]lotSales, len(n.Lots)), fixed: true}
	for i := range e.accounts {
		e.accounts[i] = map[string]*account{}
	}
	for _, name := range o.By {
		x := facetNamed(name)
		e.facets = append(e.facets, x)
		e.fixed = e.fixed && !x.passing && x.name != "place"
	}
	terms := cost.Terms{AsAt: o.AsAt, Until: o.Period().Last}
	if grafted(n) {
		terms.Takes = takes
	}
	book, err := cost.Ready(n).Follow(terms, e.take)
	if err != nil {
		return nil, err
	}
	e.book = book
	e.close()
	e.closeMonths()
	return e, nil
}

// take adds one flow.
func (e *earnings) take(f *cost.Flow) {
	if f.Kind == cost.Out || f.Kind == cost.In {
		return
	}
	e.weigh(f)
	e.reach(f)
	if f.Day < e.options.Period().First || !facetsPass(e.n, f, e.options.Filters) {
		return
	}
	switch f.Kind {
	case cost.Sold, cost.Returned:
		e.sell(f)
	case cost.Spent:
		if f.Enterprise == cost.Fruit {
			a := e.account(f)
			a.load = a.load.Plus(f.Load)
		}
	case cost.Carried:
		e.carry(f)
	case cost.Lost:
		a := e.account(f)
		a.lost = a.lost.Plus(f.Load)
		a.suppose(f, false)
	case cost.Given:
		a := e.account(f)
		a.given = a.given.Plus(f.Load)
		a.suppose(f, false)
	}
}

// suppose adds what a flow would have been. What was sold is among the trees
// that bear the cost.
func (a *account) suppose(f *cost.Flow, sold bool) {
	for i, x := range f.Supposed {
		s := &a.supposed[i]
		s.result = s.result.Add(x.Revenue).Sub(x.Cost)
		if sold {
			if !cameBack(f.Thing) {
				s.trees += x.N
			}
			s.cost = s.cost.Add(x.Cost)
		}
	}
}

// weigh adds a flow to the terms of the identity.
func (e *earnings) weigh(f *cost.Flow) {
	w := &e.whole[f.Enterprise]
	w.after.add(f)
	if f.Kind == cost.Carried {
		e.whole[cost.Wood].after.used = e.whole[cost.Wood].after.used.Add(f.Load.Cost())
	}
	if f.Day >= e.options.Period().First {
		return
	}
	for i := range e.whole { // it may touch two
		e.whole[i].before = e.whole[i].after
	}
}

func (t *terms) add(f *cost.Flow) {
	amount := f.Load.Cost()
	t.revenue = t.revenue.Add(f.Revenue)
	switch f.Kind {
	case cost.Spent, cost.Carried:
		t.spent = t.spent.Add(amount)
		if f.Enterprise == cost.Fruit { // of which there is no stock
			t.sold = t.sold.Add(amount)
		}
	case cost.Sold:
		t.sold = t.sold.Add(amount)
	case cost.Given:
		t.given = t.given.Add(amount)
	case cost.Planted:
		t.planted = t.planted.Add(amount)
	case cost.Lost:
		t.lost = t.lost.Add(amount)
	case cost.Unallocated:
		t.unallocated = t.unallocated.Add(amount)
	}
}

// sell adds a sale, or what came back of one.
func (e *earnings) sell(f *cost.Flow) {
	e.account(f).sell(f)
	l, ok := f.Thing.(*nursery.Lot)
	if !ok || f.Enterprise != cost.Trees {
		return
	}
	if isFinished(l) && f.State != fact.Failed {
		e.finished.sell(f)
	}
	if f.Kind == cost.Sold {
		s := e.lot(l)
		if s.plants == 0 {
			e.soldFrom = append(e.soldFrom, s)
		}
		s.plants += f.N
		s.revenue, s.cost = s.revenue.Add(f.Revenue), s.cost.Add(f.Load.Cost())
	}
}

func (a *account) sell(f *cost.Flow) {
	a.revenue = a.revenue.Add(f.Revenue)
	if f.Kind == cost.Returned {
		a.returned += f.N
		for i := range a.supposed { // as many come back
			a.supposed[i].result = a.supposed[i].result.Add(f.Revenue)
		}
		return
	}
	a.suppose(f, true)
	if cameBack(f.Thing) {
		a.again += f.N
	}
	if len(f.Supposed) == 0 { // a tree that had been planted, or no plant
		for i := range a.supposed {
			a.supposed[i].result = a.supposed[i].result.Add(f.Revenue).Sub(f.Load.Cost())
		}
	}
	a.sold += f.N
	a.load = a.load.Plus(f.Load)
	if m, ok := f.Entry.Effect.(*fact.Leave); ok && m.Quantity.Given {
		a.mass = a.mass.Add(kilograms(m.Quantity))
	}
}

// carry adds wood that went into plants, or limbs, to the wood's account.
func (e *earnings) carry(f *cost.Flow) {
	if f.Enterprise == cost.Fruit {
		a := e.account(f)
		a.load = a.load.Plus(f.Load)
	}
	wood := *f
	wood.Enterprise, wood.Thing = cost.Wood, f.From
	a := e.account(&wood)
	a.carried = a.carried.Add(f.Load.Cost())
}

// close adds what stands at the end.
func (e *earnings) close() {
	for i := range e.book.Standing {
		s := &e.book.Standing[i]
		f := &cost.Flow{Day: e.until(), Thing: s.Lot}
		if s.Bundle != nil {
			f.Enterprise, f.Thing = cost.Wood, s.Bundle
		}
		if !facetsPass(e.n, f, e.options.Filters) {
			continue
		}
		list := []*account{e.standing(f)}
		if s.Lot != nil && isFinished(s.Lot) {
			list = append(list, &e.finished)
		}
		for _, a := range list {
			a.onHand += s.N
			a.living += s.Living
			back := cameBack(f.Thing)
			if back {
				a.again += s.Living
			}
			a.closing = a.closing.Plus(s.Load)
			for i, x := range s.Supposed {
				if !back {
					a.supposed[i].trees += x.Living
				}
				a.supposed[i].cost = a.supposed[i].cost.Add(x.Cost)
			}
		}
	}
}

// until is the last day of the period that is known.
func (e *earnings) until() fact.Date {
	if last := e.options.Period().Last; last != 0 {
		return min(last, e.options.AsAt)
	}
	return e.options.AsAt
}

// standing is the account of what stands: of no customer and no month.
func (e *earnings) standing(f *cost.Flow) *account {
	values := make([]string, len(e.facets))
	for i, x := range e.facets {
		if !x.passing {
			values[i] = x.of(e.n, f)
		}
	}
	return e.named(f.Enterprise, values)
}

// lot is what is kept of a lot of trees.
func (e *earnings) lot(l *nursery.Lot) *lotSales {
	s := &e.lots[l.Number]
	s.lot = l
	return s
}

// account is that of a flow.
func (e *earnings) account(f *cost.Flow) *account {
	l, ok := f.Thing.(*nursery.Lot)
	if !ok || !e.fixed || f.Enterprise != cost.Trees {
		return e.accountFor(f)
	}
	a := &e.lot(l).account[0]
	if f.State == fact.Failed {
		a = &e.lot(l).account[1]
	}
	if *a == nil {
		*a = e.accountFor(f)
	}
	return *a
}

func (e *earnings) accountFor(f *cost.Flow) *account {
	values := make([]string, len(e.facets))
	for i, x := range e.facets {
		values[i] = x.of(e.n, f)
	}
	return e.named(f.Enterprise, values)
}

func (e *earnings) named(of cost.Enterprise, values []string) *account {
	key := strings.Join(values, "\x00")
	a := e.accounts[of][key]
	if a == nil {
		a = &account{values: values}
		e.accounts[of][key] = a
		e.order[of] = append(e.order[of], a)
	}
	return a
}

// cameBack reports whether the plants of a lot had been sold before.
func cameBack(t nursery.Thing) bool {
	l, ok := t.(*nursery.Lot)
	return ok && l.How == fact.Returned
}

// isFinished reports whether a lot is of trees to be sold, and not of stocks to
// be worked.
func isFinished(l *nursery.Lot) bool {
	v := l.Top.Variety
	return v == nil || v.Fact == nil || !v.Fact.Rootstock
}

// kilograms is a weight of fruit, exactly; a pound is 0.45359237 kg by
// definition, an ounce a sixteenth of it.
func kilograms(q fact.Quantity) money.Amount {
	one, _ := money.New(1, 0)
	by, err := money.Decimal(q.Value.Coef, int(q.Value.Scale))
	if err != nil {
		return money.Amount{}
	}
	switch q.Unit {
	case fact.Gram:
		one, _ = money.New(1, 3)
	case fact.Pound:
		one, _ = money.New(45359237, 8)
	case fact.Ounce:
		one, _ = money.New(28349523, 9) // 28.349523125 g, cut off
	}
	return one.Mul(by)
}
