package report

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/cost"
	"github.com/budstick/budstick/report/money"
	"github.com/budstick/budstick/report/table"
)

// swing is by how many points the take is moved in the drawing, and by how many
// hundredths prices, wages and shared costs are.
const (
	swingTake   = 5
	swingOthers = 10
)

// millionths are the parts of a plant in which supposed ones are counted.
const millionths = 1_000_000

// grafted reports whether there are grafts of which something is known.
func grafted(n *nursery.Nursery) bool {
	return slices.ContainsFunc(n.Batches, func(b *nursery.Batch) bool { return b.Kind == nursery.GraftBatch && b.Known() > 0 })
}

// perTreeOf is the cost of one tree that can be sold, exactly and not in cents.
func (a *account) perTreeOf() money.Amount {
	total, trees := a.perTree()
	return divided(total, 1, trees)
}

// supposedPerTree is what it would be with another take.
func (a *account) supposedPerTree(take int) money.Amount {
	s := &a.supposed[take]
	return divided(s.cost, millionths, s.trees)
}

func divided(a money.Amount, num, den int64) money.Amount {
	if den <= 0 {
		return money.Amount{}
	}
	return a.MulFrac(num, den)
}

// result is what the trees earned that the filters let through: their margin,
// less what was lost or given away. Supposed, it is so with another take.
func (e *earnings) result() money.Amount {
	var sum money.Amount
	for _, a := range e.order[cost.Trees] {
		sum = sum.Add(a.margin()).Sub(a.lost.Cost()).Sub(a.given.Cost())
	}
	return sum.Sub(e.borneByNobody())
}

func (e *earnings) supposedResult(take int) money.Amount {
	var sum money.Amount
	for _, a := range e.order[cost.Trees] {
		sum = sum.Add(a.supposed[take].result)
	}
	return sum.Sub(e.borneByNobody())
}

func (e *earnings) borneByNobody() money.Amount {
	if len(e.options.Filters) > 0 {
		return money.Amount{}
	}
	return e.whole[cost.Trees].after.unallocated.Sub(e.whole[cost.Trees].before.unallocated)
}

// pointOf is by how much less a tree of a row would have cost, had one more of
// each hundred grafts taken.
func (p *profitDoc) pointOf(a *account) table.Cell {
	if _, trees := a.perTree(); trees <= 0 || a.supposed[onePoint].trees == 0 {
		return table.Unknown()
	}
	return p.cash(a.perTreeOf().Sub(a.supposedPerTree(onePoint)))
}

// worth is what one more point of take, and one hour less at the bench, would
// have been worth. The hours saved went with the plants as their cost did.
func (p *profitDoc) worth() table.Facts {
	var saved money.Amount // of what was sold, given or lost
	for _, a := range p.order[cost.Trees] {
		saved = money.Sum(saved, a.load[cost.Saving], a.lost[cost.Saving], a.given[cost.Saving])
	}
	a := &p.finished
	_, trees := a.perTree()
	quicker := divided(a.load[cost.Saving].Add(a.closing[cost.Saving]), 1, trees)
	return table.Facts{Name: "worth", Title: "What it would have been worth", Items: []table.Fact{
		{Name: "point_of_take_each", Heading: "one more graft of each hundred takes: a tree costs less by", Value: p.cash(a.perTreeOf().Sub(a.supposedPerTree(onePoint)))},
		{Name: "point_of_take_result", Heading: "and the trees earn more by", Value: p.cash(p.supposedResult(onePoint).Sub(p.result()))},
		{Name: "hour_each", Heading: "a hundred grafts take an hour less: a tree costs less by", Value: p.cash(quicker)},
		{Name: "hour_result", Heading: "and the trees earn more by", Value: p.cash(saved)},
	}}
}

// tornado shows what the result of the trees hangs on. Another take changes what
// becomes of the plants; prices, wages and shared costs go straight into it.
func (p *profitDoc) tornado() table.Tornado {
	now, fewer, more := p.result(), p.supposedResult(fewerPoints), p.supposedResult(morePoints)
	base := now
	if len(p.options.Filters) == 0 {
		base = p.balance[cost.Trees].result() // the same, to the cent that stands above
	}
	var revenue money.Amount
	var gone cost.Load // sold, given or lost
	for _, a := range p.order[cost.Trees] {
		revenue = revenue.Add(a.revenue)
		gone = gone.Plus(a.load).Plus(a.lost).Plus(a.given)
	}
	part := func(label string, of money.Amount, less, more string) table.Swing {
		tenth := of.MulFrac(swingOthers, 100)
		return table.Swing{Label: label, LowAt: less, HighAt: more, Low: p.cash(now.Sub(tenth)), High: p.cash(now.Add(tenth))}
	}
	down, up := fmt.Sprintf("%d %% less", swingOthers), fmt.Sprintf("%d %% more", swingOthers)
	type swing struct {
		table.Swing
		width money.Amount
	}
	list := []swing{
		{part("prices", revenue, down, up), revenue.MulFrac(2*swingOthers, 100)},
		{part("wages", gone[cost.Labour], up, down), gone[cost.Labour].MulFrac(2*swingOthers, 100)},
		{part("shared costs", gone[cost.Shared], up, down), gone[cost.Shared].MulFrac(2*swingOthers, 100)},
		{table.Swing{Label: "take", LowAt: fmt.Sprintf("%d points less", swingTake), HighAt: fmt.Sprintf("%d points more", swingTake),
			Low: p.cash(fewer), High: p.cash(more)}, more.Sub(fewer)},
	}
	slices.SortStableFunc(list, func(a, b swing) int { return cmp.Or(abs(b.width).Cmp(abs(a.width))) })
	t := table.Tornado{Title: "What the result of the trees hangs on", Axis: "result", Base: p.cash(base),
		Desc: fmt.Sprintf("The %s move it most.", list[0].Label)}
	for _, s := range list {
		if s.width != (money.Amount{}) {
			t.Swings = append(t.Swings, s.Swing)
		}
	}
	return t
}

func abs(a money.Amount) money.Amount {
	if a.Sign() < 0 {
		return a.Neg()
	}
	return a
}
