package report

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/report/cost"
	"github.com/budstick/budstick/report/money"
)

// monthEnd is what stood at the end of a month, at cost.
type monthEnd struct {
	month  string
	last   fact.Date // the last day of the month on which anything flowed
	plants int64
	cost   money.Amount
}

// byMonth reports whether rows are months and nothing else.
func (e *earnings) byMonth() bool { return len(e.facets) == 1 && e.facets[0].name == "month" }

// reach keeps what stands when a flow of the trees has passed, as long as its
// month lasts.
func (e *earnings) reach(f *cost.Flow) {
	if !e.byMonth() || f.Enterprise != cost.Trees || f.Kind == cost.Returned {
		return
	}
	var before money.Amount
	month := e.facets[0].of(e.n, f)
	if k := len(e.ends); k > 0 {
		before = e.ends[k-1].cost
		if e.ends[k-1].month == month {
			e.ends = e.ends[:k-1]
		}
	}
	after := before.Sub(f.Load.Cost())
	if f.Kind == cost.Spent || f.Kind == cost.Carried {
		after = before.Add(f.Load.Cost())
	}
	e.ends = append(e.ends, &monthEnd{month: month, last: f.Day, cost: after})
}

// closeMonths gives each month of the time its end, and counts what stood then.
func (e *earnings) closeMonths() {
	at, plants := 0, int64(0)
	for i, end := range e.ends {
		next := e.until() + 1
		if i+1 < len(e.ends) {
			y, m, _ := e.ends[i+1].last.Civil()
			next, _ = fact.NewDate(y, m, 1)
		}
		for ; at < len(e.n.Moves) && e.n.Moves[at].Entry.Date < next; at++ {
			m := &e.n.Moves[at]
			if m.To != nil && !m.To.Limbs && m.From == nil {
				plants += int64(m.N)
			}
			if m.To == nil && !m.From.Limbs {
				plants -= int64(m.N)
			}
		}
		end.plants = plants
		if end.last >= e.options.Period().First {
			e.named(cost.Trees, []string{end.month}).end = end
		}
	}
}
