package cost

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/money"
)

// A Refusal says why money of a journal can't be added up, and what to write.
type Refusal struct{ Message string }

func (r *Refusal) Error() string { return r.Message }

// A purse turns what is written as money into the farm's own. It notes what it
// can't turn, to be refused together.
type purse struct {
	home    string
	places  int
	rates   money.Rates
	foreign map[string]bool
	noRate  map[string][]*fact.Entry // by currency
	tooFine []*fact.Entry
}

// newPurse refuses a journal that does not say in which money it reckons.
func newPurse(n *nursery.Nursery) (*purse, error) {
	if n.Farm == nil || n.Farm.Currency == "" {
		return nil, &Refusal{`The journal does not say in which money the farm reckons; add it to the farm: farm "Kestrel Hollow" currency EUR.`}
	}
	p := &purse{home: n.Farm.Currency, foreign: map[string]bool{}, noRate: map[string][]*fact.Entry{}}
	p.places, _ = fact.MinorUnit(p.home) // any currency that a journal can name has one
	for _, e := range n.Rates {
		p.learn(e, e.Effect.(*fact.Rate))
	}
	return p, nil
}

// learn takes in a rate, whichever way round it is written. One between two
// foreign currencies is of no use.
func (p *purse) learn(e *fact.Entry, f *fact.Rate) {
	foreign, home := f.Of, f.Is
	if p.isHome(foreign.Currency) {
		foreign, home = home, foreign
	}
	if !p.isHome(home.Currency) || p.isHome(foreign.Currency) {
		return
	}
	of, ofFine := p.exact(e, foreign.Amount)
	is, isFine := p.exact(e, home.Amount)
	if ofFine && isFine {
		_ = p.rates.Set(foreign.Currency, int(e.Date), of, is) // 0 is an error of the entry already
	}
}

func (p *purse) isHome(currency string) bool { return currency == "" || currency == p.home }

func (p *purse) exact(e *fact.Entry, d fact.Decimal) (money.Amount, bool) {
	a, err := money.New(d.Coef, int(d.Scale))
	if err != nil {
		p.tooFine = append(p.tooFine, e)
	}
	return a, err == nil
}

// own is an amount of a currency in the farm's own, on the day of an entry.
func (p *purse) own(e *fact.Entry, a money.Amount, currency string) money.Amount {
	if p.isHome(currency) || a == (money.Amount{}) {
		return a
	}
	own, ok := p.rates.Convert(a, currency, int(e.Date))
	if !ok {
		p.noRate[currency] = append(p.noRate[currency], e)
		return money.Amount{}
	}
	p.foreign[currency] = true
	return own
}

// amount is money of an entry in the farm's own.
func (p *purse) amount(e *fact.Entry, m fact.Money) money.Amount {
	if !m.Given {
		return money.Amount{}
	}
	a, _ := p.exact(e, m.Amount)
	return p.own(e, a, m.Currency)
}

// written is money as it stands in an entry.
func (p *purse) written(e *fact.Entry, m fact.Money) Written {
	if !m.Given {
		return Written{}
	}
	w := Written{Currency: m.Currency}
	if w.Currency == "" {
		w.Currency = p.home
	}
	w.Amount, _ = p.exact(e, m.Amount)
	return w
}

// writtenCost is the money that an entry says it cost, where it is one sum.
func (p *purse) writtenCost(e *fact.Entry) Written {
	list := slices.Clone(e.Costs())
	switch m := e.Effect.(type) {
	case *fact.Begin:
		list = append(list, m.Total)
	case *fact.Spend:
		list = append(list, m.Amount)
	}
	list = slices.DeleteFunc(list, func(m fact.Money) bool { return !m.Given })
	if len(list) != 1 {
		return Written{}
	}
	return p.written(e, list[0])
}

// coins rounds a sum that changes hands to the smallest coin of its currency, a
// half away from nought, as an invoice does.
func (p *purse) coins(a money.Amount, currency string) money.Amount {
	places := p.places
	if !p.isHome(currency) {
		if minor, ok := fact.MinorUnit(currency); ok {
			places = minor
		}
	}
	return a.Round(places, money.HalfUp)
}

// refusal is what could not be turned, or nil.
func (p *purse) refusal() error {
	if len(p.noRate) == 0 && len(p.tooFine) == 0 {
		return nil
	}
	var say []string
	for _, currency := range slices.Sorted(maps.Keys(p.noRate)) {
		list := distinct(p.noRate[currency])
		say = append(say, fmt.Sprintf("Nothing says what %s was worth in %s on the day of %s. Write it above the first of them, as in: rate 1 %s is 0.92 %s.",
			currency, p.home, lines(list), currency, p.home))
	}
	if len(p.tooFine) > 0 {
		say = append(say, fmt.Sprintf("Money is kept to %d decimals, and there are more in %s; write fewer.", money.Guard, lines(distinct(p.tooFine))))
	}
	return &Refusal{strings.Join(say, "\n")}
}

// mostLines is how many lines are named in a sentence.
const mostLines = 5

// lines names where entries stand: farm.bud line 3.
func lines(list []*fact.Entry) string {
	var names []string
	for _, e := range list[:min(len(list), mostLines)] {
		names = append(names, fmt.Sprintf("%s line %d", e.File.Path, e.Line))
	}
	if more := len(list) - len(names); more > 0 {
		names = append(names, fmt.Sprintf("%d more", more))
	}
	if len(names) == 1 {
		return names[0]
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

// distinct sorts entries by where they stand and keeps each once.
func distinct(list []*fact.Entry) []*fact.Entry {
	list = slices.Clone(list)
	slices.SortStableFunc(list, func(a, b *fact.Entry) int {
		return cmp.Or(cmp.Compare(a.Date, b.Date), cmp.Compare(a.File.Path, b.File.Path), cmp.Compare(a.Line, b.Line))
	})
	return slices.Compact(list)
}

// sums is what an entry costs, as far as it says so: money by what it is for,
// and hours at the wage in force.
func (f *follower) sums(e *fact.Entry) (l Load) {
	switch m := e.Effect.(type) {
	case *fact.Begin:
		l[Bought] = f.amount(e, m.Total)
	case *fact.Spend:
		l[Material] = f.amount(e, m.Amount)
	}
	if e.Extra == nil {
		return l
	}
	for _, c := range e.Extra.Costs {
		l[Material] = l[Material].Add(f.amount(e, c))
	}
	if len(e.Extra.Workers) == 0 {
		return l
	}
	var done Load
	for _, w := range e.Extra.Workers {
		f.work(e, w, &done)
	}
	if g, ok := e.Effect.(*fact.Graft); ok {
		done[Saving] = done[Labour].Sub(done[Labour].MulFrac(slower(e, g)))
	}
	return l.Plus(done)
}

// slower is what share of its time a graft would have taken, had a hundred of
// them taken an hour less.
func slower(e *fact.Entry, g *fact.Graft) (num, den int64) {
	var minutes fact.Decimal
	for _, w := range e.Workers() {
		minutes = minutes.Plus(w.Minutes)
	}
	tenths := minutes.Coef * 10
	saved := int64(g.Count.N) * 6 // tenths of a minute: an hour for a hundred
	for range minutes.Scale {
		saved *= 10
	}
	if tenths <= 0 {
		return 1, 1
	}
	return max(tenths-saved, 0), tenths
}

// work adds the time of a worker, and what it costs.
func (f *follower) work(e *fact.Entry, w fact.Labour, l *Load) {
	if !w.Timed || w.Minutes.Zero() {
		return
	}
	if w.Minutes.Scale > money.Guard {
		f.tooFine = append(f.tooFine, e)
		return
	}
	minutes, _ := money.Decimal(w.Minutes.Coef, int(w.Minutes.Scale))
	hours := hoursOf(minutes)
	l[Hours] = l[Hours].Add(hours)
	wage, per, ok := f.wage(e, w.Worker.Text)
	if !ok {
		f.book.Doubts.NoWage = append(f.book.Doubts.NoWage, Worked{e, w.Worker.Text, hours})
		return
	}
	f.book.Doubts.ByDay = f.book.Doubts.ByDay || per == fact.Day
	minutes.Den *= minutesPer[per]
	l[Labour] = l[Labour].Add(wage.Mul(minutes))
}

// minutesPer is how many minutes a wage is for. A day of eight hours is common
// practice, no source.
var minutesPer = map[fact.Unit]int64{fact.Minute: 1, fact.Hour: 60, fact.Day: 8 * 60}

// hoursOf is a number of minutes in hours.
func hoursOf(minutes money.Ratio) money.Amount {
	one, _ := money.New(1, 0)
	return one.Mul(money.Ratio{Num: minutes.Num, Den: minutes.Den * 60})
}

// wage is that of a worker in force on the day of an entry.
func (f *follower) wage(e *fact.Entry, worker string) (wage money.Amount, per fact.Unit, ok bool) {
	w, known := f.n.Worker(worker)
	if !known {
		return wage, per, false
	}
	for i := len(w.Wages) - 1; i >= 0; i-- {
		d := w.Wages[i].Effect.(*fact.Worker)
		if w.Wages[i].Date <= e.Date && d.Wage.Given {
			return f.amount(e, d.Wage), d.Per, true
		}
	}
	return wage, per, false
}
