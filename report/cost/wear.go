package cost

import (
	"time"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/report/money"
)

// bring takes in a thing that was bought for longer than a day.
func (f *follower) bring(e *fact.Entry, s *fact.Spend) {
	paid := f.sums(e)
	f.book.Things = append(f.book.Things, &Thing{Entry: e, Ends: after(e.Date, s.Over) - 1, Cost: paid.Cost(), paid: paid})
}

// wear adds what the month uses up of the things that were bought for longer:
// those that serve lots by name are charged to them at once.
func (f *follower) wear() {
	m := &f.month
	for _, t := range f.book.Things {
		if t.Worn == t.Cost {
			continue
		}
		began := t.Entry.Date
		worn := money.Worn(t.Cost, int64(m.last-began)+1, int64(t.Ends-began)+1)
		used := worn.Sub(t.Worn)
		t.Worn = worn
		t.months = append(t.months, wear{m.last, worn})
		s := t.Entry.Effect.(*fact.Spend)
		switch {
		case len(s.For) == 0:
			m.shared[f.shares.base(s.On.Text, m.first)].load.add(&Load{Shared: used})
		case t.Entry.Date >= m.first:
			t.first = used // until its entry comes
		default:
			f.wearFor(t.Entry, used)
		}
	}
}

// wearFor charges what is used up of a thing to the lots that it serves.
func (f *follower) wearFor(e *fact.Entry, used money.Amount) {
	f.attribute(e, Load{Material: used}, f.bearing(e), Unallocated)
}

// after is the day that lies a stretch of time after another. Whole months and
// years go by the calendar; parts of them are days, 30 to a month and 365 to a
// year.
func after(d fact.Date, q fact.Quantity) fact.Date {
	months := map[fact.Unit]int64{fact.Month: 1, fact.Year: 12}[q.Unit]
	if n := whole(q.Value, months); n > 0 && exactly(q.Value, months) {
		return addMonths(d, n)
	}
	days := map[fact.Unit]int64{fact.Day: 1, fact.Week: 7, fact.Month: 30, fact.Year: 365}[q.Unit]
	return d + fact.Date(min(max(whole(q.Value, days), 1), longest))
}

// longest is a hundred years: nothing is used up more slowly.
const longest = 36_500

// exactly reports whether d × per has nothing behind the point.
func exactly(d fact.Decimal, per int64) bool {
	n := d.Coef * per
	for range d.Scale {
		if n%10 != 0 {
			return false
		}
		n /= 10
	}
	return true
}

// addMonths is the same day so many months on, or the last of that month.
func addMonths(d fact.Date, n int64) fact.Date {
	y, m, day := d.Civil()
	months := int64(y)*12 + int64(m) - 1 + min(n, 1200)
	y, m = int(months/12), time.Month(months%12+1)
	then, ok := fact.NewDate(y, m, min(day, fact.DaysIn(y, m)))
	if !ok {
		return d + longest
	}
	return then
}
