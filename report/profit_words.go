package report

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/report/cost"
	"github.com/budstick/budstick/report/money"
)

// notes say how the figures were reckoned and what they can't know.
func (p *profitDoc) notes() []string {
	var notes []string
	say := func(format string, args ...any) { notes = append(notes, fmt.Sprintf(format, args...)) }
	d := p.doubts()
	if p.soldNothing() {
		say("Nothing was sold%s.", p.inPeriod())
	}
	if len(p.options.Filters) > 0 {
		say("The filters choose rows. Where the money went is told of the whole farm.")
	}
	if len(d.Foreign) > 0 {
		say("Money in %s is counted in %s by the rate in force on its day.", strings.Join(d.Foreign, ", "), p.book.Currency)
	}
	if len(d.Unpriced) > 0 {
		say("%s brought in nothing here, for want of a price (%s). Write it on the sale, or declare it: price Amberlight at 19.00 each.",
			counted(len(d.Unpriced), "sale", "sales"), linesOf(d.Unpriced))
	}
	if len(d.Listed) > 0 {
		say("%s at the declared price, for want of one of their own.", counted(len(d.Listed), "sale is", "sales are"))
	}
	for _, w := range d.NoWage { // one of each worker
		say("%s h of %s cost nothing here, for want of a wage on that day: worker %s 14.50 per h.", w.Hours.Fixed(2), w.Worker, w.Worker)
	}
	if d.ByDay {
		say("A wage for a day is taken to be for 8 hours.")
	}
	if len(d.Late) > 0 {
		say("Nothing was left of what these costs are for, so they are a loss: %s.", linesOf(d.Late))
	}
	if free := p.free(); len(free) > 0 {
		say("No cost had been written for what was sold of %s, so all of its price is margin.", someOf(free))
	}
	if under := p.underCost(); len(under) > 0 {
		say("Sold under cost: %s.", someOf(under))
	}
	for _, label := range d.Unshared {
		say("It is declared how %s is shared, but nothing was spent on it, nor worked at it, by that name.", label.Text)
	}
	return append(notes, p.method()...)
}

// doubts are those of the period. Hours are added up for each worker.
func (p *profitDoc) doubts() cost.Doubts {
	d := p.book.Doubts
	within := func(list []*fact.Entry) (in []*fact.Entry) {
		for _, e := range list {
			if p.options.Period().Contains(e.Date) {
				in = append(in, e)
			}
		}
		return in
	}
	d.Unpriced, d.Listed, d.Late = within(d.Unpriced), within(d.Listed), within(d.Late)
	var hours []cost.Worked
	for _, w := range d.NoWage {
		if worker, ok := p.n.Worker(w.Worker); ok {
			w.Worker = worker.Name
		}
		i := slices.IndexFunc(hours, func(o cost.Worked) bool { return o.Worker == w.Worker })
		switch {
		case !p.options.Period().Contains(w.Entry.Date):
		case i < 0:
			hours = append(hours, w)
		default:
			hours[i].Hours = hours[i].Hours.Add(w.Hours)
		}
	}
	d.NoWage = hours
	return d
}

// method says how it was reckoned.
func (p *profitDoc) method() []string {
	notes := []string{
		p.lossWords() + " What came back is worth nothing until it is sold again, and what was given back for it is taken off the revenue.",
		"Hours and room on the bench travel with the plants as their cost does; a pot's room is the square over it (rule of thumb).",
	}
	if grafted(p.n) {
		notes = append(notes, "For what it would have been worth, the journal is reckoned again: of the plants that are more, the same shares go the same way, "+
			"and each of them costs what the others cost from there on.")
	}
	return notes
}

// lossWords say who bears what died.
func (p *profitDoc) lossWords() string {
	for _, e := range p.n.Entries {
		if l, ok := e.Effect.(*fact.Limit); ok && l.Rule.Text == "loss" {
			return "What died is borne by those that live, up to the share that is declared to be normal (limit loss); what is beyond, and lots of which nothing lives, are lost."
		}
	}
	return "What died is borne by those that live; lots of which nothing lives are lost. (limit loss 15 % would make what is beyond a loss of its own.)"
}

func (p *profitDoc) soldNothing() bool {
	for i := range p.order {
		for _, a := range p.order[i] {
			if a.sold != 0 || a.mass != (money.Amount{}) || a.revenue.Sign() > 0 {
				return false
			}
		}
	}
	return true
}

func (p *profitDoc) inPeriod() string {
	switch period := p.options.Period(); {
	case period.Name != "":
		return " in " + period.Name
	case period != Period{}:
		return " in this time"
	}
	return ""
}

// free are the lots of which plants were sold before any cost was written.
func (p *profitDoc) free() (names []string) {
	for _, s := range p.soldFrom {
		if s.cost == (money.Amount{}) {
			names = append(names, s.lot.Name)
		}
	}
	return names
}

// underCost are the lots whose plants brought in less than they cost, the worst
// first.
func (p *profitDoc) underCost() (names []string) {
	var under []*lotSales
	for _, s := range p.soldFrom {
		if s.revenue.Sign() > 0 && s.margin().Round(p.book.Places, money.HalfEven).Sign() < 0 {
			under = append(under, s)
		}
	}
	slices.SortFunc(under, func(a, b *lotSales) int {
		return cmp.Or(a.margin().Cmp(b.margin()), cmp.Compare(a.lot.Name, b.lot.Name))
	})
	for _, s := range under {
		names = append(names, fmt.Sprintf("%s (at %s what cost %s)", s.lot.Name,
			s.revenue.MulFrac(1, s.plants).Fixed(p.book.Places), s.cost.MulFrac(1, s.plants).Fixed(p.book.Places)))
	}
	return names
}

func (s *lotSales) margin() money.Amount { return s.revenue.Sub(s.cost) }

// linesOf names where entries stand.
func linesOf(entries []*fact.Entry) string {
	var names []string
	for _, e := range entries {
		names = append(names, fmt.Sprintf("%s line %d", e.File.Path, e.Line))
	}
	return someOf(names)
}

// labelOfCost is what an entry's cost is for, in the grower's own word.
func labelOfCost(e *fact.Entry) string {
	switch f := e.Effect.(type) {
	case *fact.Spend:
		return f.On.Text
	case *fact.Work:
		return f.Task.Text
	}
	return e.Verb
}
