package entry

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/syntax"
)

// The parts that sentences share. Their names are the names of productions in
// the EBNF.

type ref = syntax.Ref

// name refers to something, or is a label.
type name struct {
	Ref ref `parser:"@(Word | Quoted)"`
}

// names is a list of names.
type names struct {
	List []name `parser:"@@ (',' @@)*"`
}

// count is a whole number that may be a guess.
type count struct {
	About *ref `parser:"@'about'?"`
	N     ref  `parser:"@Int"`
}

// money is an amount and, where it is not the farm's own, a currency.
type money struct {
	Amount   ref  `parser:"@(Int | Decimal)"`
	Currency *ref `parser:"@Currency?"`
}

// labour is a worker and the time it took: worker Ines 3 h 20 min.
type labour struct {
	Worker name       `parser:"@@"`
	Time   []*measure `parser:"@@*"`
}

// measure is a number of a unit, counted out.
type measure struct {
	Value ref `parser:"@(Int | Decimal)"`
	Unit  ref `parser:"@Unit"`
}

// state is a word for what plants on hand are doing.
type state struct {
	Word ref `parser:"@('waiting' | 'attached' | 'living' | 'failed')"`
}

// common is a clause that any entry takes.
type common struct {
	At     *name   `parser:"  'at' @@"`
	Remark *remark `parser:"| @@"`
}

// remark is a clause that any entry takes beside its place.
type remark struct {
	Worker   []*labour `parser:"  'worker' @@ (',' @@)*"`
	Cost     *money    `parser:"| 'cost' @@"`
	Note     *ref      `parser:"| 'note' @Quoted"`
	Tag      *name     `parser:"| 'tag' @@"`
	Happened *ref      `parser:"| 'happened' @Date"`
}

// commons adds the clauses of an entry that has none of its own.
func (r *reader) commons(list []*common) {
	for _, c := range list {
		r.extra(c)
	}
}

// extra adds a common clause to the entry, if c is one.
func (r *reader) extra(c *common) {
	switch {
	case c == nil:
	case c.At != nil:
		r.at(c.At)
	default:
		r.remark(c.Remark)
	}
}

// extras is where the common clauses of the entry go.
func (r *reader) extras() *fact.Extra {
	if r.ext == nil {
		r.ext = &fact.Extra{}
	}
	return r.ext
}

func (r *reader) at(n *name) { r.put(&r.extras().At, "at", n) }

func (r *reader) remark(c *remark) {
	if c == nil {
		return
	}
	x := r.extras()
	switch {
	case c.Worker != nil:
		for _, l := range c.Worker {
			x.Workers = append(x.Workers, r.labour(l))
		}
	case c.Cost != nil:
		x.Costs = append(x.Costs, r.money(c.Cost))
	case c.Note != nil:
		x.Notes = append(x.Notes, r.quoted(*c.Note))
	case c.Tag != nil:
		x.Tags = append(x.Tags, r.name(c.Tag))
	case c.Happened != nil:
		r.once("happened", x.Happened != 0, *c.Happened)
		x.Happened = r.date(*c.Happened)
		if r.day != 0 && !r.lost && x.Happened > r.day {
			r.errorf(r.span(*c.Happened), "day-order", "it can't have happened after the day it is written under, %s; write the earlier day, or move the entry", r.day.Long())
		}
	}
}

// mostTime and finestTime bound what is written of a worker's time, so that
// times in minutes can be added up exactly: 9 digits, 6 of them behind the
// point.
const mostTime, finestTime = 1_000_000_000, 6

func (r *reader) labour(l *labour) fact.Labour {
	out := fact.Labour{Worker: r.name(&l.Worker)}
	for _, m := range l.Time {
		q := r.measure(m)
		minutes := q.Value
		if minutes.Coef >= mostTime || minutes.Scale > finestTime {
			r.errorf(q.Span, "number", "a worker's time has at most 9 digits, 6 of them behind the point")
			continue
		}
		switch q.Unit {
		case fact.Minute:
		case fact.Hour:
			minutes.Coef *= 60
		default:
			r.errorf(q.Span, "unit", "a worker's time is in h and min, as in worker %s 3 h 20 min", syntax.Spell(out.Worker.Text))
			continue
		}
		out.Minutes, out.Timed = out.Minutes.Plus(minutes), true
	}
	return out
}
