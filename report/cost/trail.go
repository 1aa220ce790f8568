package cost

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
)

// A Trail is a nursery made ready for its money to be followed, as often as is
// liked: what has to be looked up is looked up once.
type Trail struct {
	n      *nursery.Nursery
	ends   []ends  // of each of the nursery's moves
	bears  []int32 // of each of its entries: one more than the lot that alone bears its cost, else 0
	shares shares
	unmet  []fact.Name // labels that are declared to be shared, and stand on no cost
	limits bool        // the journal declares what loss is normal
}

// ends are the lots of a move, by their number, or -1: for outside, and for
// limbs, which are no plants.
type ends struct{ from, to int32 }

// Ready makes a nursery ready.
func Ready(n *nursery.Nursery) *Trail {
	t := &Trail{
		n: n, ends: make([]ends, len(n.Moves)), bears: make([]int32, len(n.Entries)),
		limits: declaresLoss(n),
	}
	t.shares, t.unmet = readShares(n.Entries)
	for i := range n.Moves {
		t.ends[i] = ends{number(n.Moves[i].From), number(n.Moves[i].To)}
	}
	for i, e := range n.Entries {
		if !asksWho(e) {
			continue
		}
		if things := t.bearers(e); len(things) == 1 {
			if l, ok := things[0].(*nursery.Lot); ok {
				t.bears[i] = number(l) + 1
			}
		}
	}
	return t
}

// asksWho reports whether it matters what an entry makes or is about.
func asksWho(e *fact.Entry) bool {
	if e.Extra != nil && (len(e.Extra.Workers) > 0 || len(e.Extra.Costs) > 0) {
		return true
	}
	switch m := e.Effect.(type) {
	case *fact.Begin:
		return true
	case *fact.Spend:
		return true
	case *fact.Graft:
		return true
	case *fact.Pass: // it may stand elsewhere
		return !m.As.Given()
	}
	return false
}

// number is that of a lot of plants, or -1.
func number(l *nursery.Lot) int32 {
	if l == nil || l.Limbs {
		return -1
	}
	return l.Number
}

// bearers lists what bears the cost of an entry. Nothing bears that of an entry
// that was refused. The name of a variety means the lots of it that stand at the
// time, and is left out.
func (t *Trail) bearers(e *fact.Entry) []nursery.Thing {
	if as := makes(e); as.Given() {
		return t.made(e, as)
	}
	return t.things(about(e)...)
}

// Named lists the names that the cost of an entry belongs to: what it makes,
// else what it is about. None are named where all share it.
func Named(e *fact.Entry) []fact.Name {
	if as := makes(e); as.Given() {
		return []fact.Name{as}
	}
	return about(e)
}

// makes is the name of the lot or bundle that an entry makes, if it makes one.
func makes(e *fact.Entry) fact.Name {
	switch m := e.Effect.(type) {
	case *fact.Begin:
		return m.As
	case *fact.Layer:
		return m.As
	case *fact.Cut:
		return m.As
	case *fact.Graft:
		return m.As
	case *fact.Join:
		return m.As
	case *fact.Pass:
		return m.As
	case *fact.Return:
		return m.As
	}
	return fact.Name{}
}

// about is what an entry is about that makes nothing.
func about(e *fact.Entry) []fact.Name {
	switch m := e.Effect.(type) {
	case *fact.Spend:
		return m.For
	case *fact.Work:
		return m.For
	case *fact.Remark:
		return m.Of
	case *fact.Graft:
		return []fact.Name{m.Into}
	case *fact.Pass:
		return []fact.Name{m.Lot}
	case *fact.Return:
		return []fact.Name{m.Of}
	case *fact.Check:
		return []fact.Name{m.Lot}
	case *fact.Turn:
		return []fact.Name{m.Lot}
	case *fact.Leave:
		return []fact.Name{m.Of}
	case *fact.Plant:
		return []fact.Name{m.Of}
	case *fact.Pick:
		return m.From
	case *fact.Stocktake:
		return m.Lots
	case *fact.Tend:
		return m.Lots
	case *fact.Treat:
		return m.Of
	case *fact.Inspect:
		return m.Of
	case *fact.Mark:
		return []fact.Name{m.Of}
	case *fact.Tree:
		return []fact.Name{m.Name}
	case *fact.Limb:
		return []fact.Name{m.Name}
	}
	return nil
}

// made is what an entry made under a name, if it counted.
func (t *Trail) made(e *fact.Entry, as fact.Name) []nursery.Thing {
	if x, ok := t.n.Thing(as.Text); ok && x.Origin() == e {
		return []nursery.Thing{x}
	}
	return nil
}

// things are those that names mean; varieties are none.
func (t *Trail) things(names ...fact.Name) (list []nursery.Thing) {
	for _, name := range names {
		if x, ok := t.n.Thing(name.Text); ok {
			list = append(list, x)
		}
	}
	return list
}
