package nursery

import (
	"github.com/budstick/budstick/grammar/fact"
	spelling "github.com/budstick/budstick/grammar/name"
)

// Listed is the closest price that the journal declares for a sale of plants in
// a state, or of anything else: for the buyer, the buyer's kind or everyone, and
// among these in the pot or in any. A price each is one of plants, a price by
// weight one of fruit; wood, and fruit that is counted, have none.
func (n *Nursery) Listed(e *fact.Entry, sale *fact.Leave, s fact.State) (*fact.Quote, bool) {
	variety, pot := n.offered(sale, s, e.Date)
	if variety == nil || sale.Noun != fact.Plants && !sale.Quantity.Given {
		return nil, false
	}
	var best *fact.Quote
	rank := -1
	for _, declared := range variety.quotes {
		q := declared.Effect.(*fact.Quote)
		if declared.Date > e.Date || (q.Per != "") != sale.Quantity.Given || q.Per != sale.Quantity.Unit {
			continue
		}
		to := n.nearness(q.To, sale.To)
		if to < 0 || q.Pot.Given && !q.Pot.Same(pot) {
			continue
		}
		r := 2 * to
		if q.Pot.Given {
			r++
		}
		if r >= rank { // of two that are as close, the later holds
			best, rank = q, r
		}
	}
	return best, rank >= 0
}

// offered is the variety of what is sold, and the pot that it stands in. Plants
// whose top failed are sold as stocks.
func (n *Nursery) offered(sale *fact.Leave, s fact.State, day fact.Date) (*Variety, fact.Quantity) {
	t, _ := n.Thing(sale.Of.Text)
	switch t := t.(type) {
	case *Lot:
		pot := t.SpotOn(day).Pot.Size
		if s == fact.Failed {
			return t.Stock().Variety, pot
		}
		return t.Top.Variety, pot
	case *Tree:
		return t.Variety, fact.Quantity{}
	case *Limb:
		return t.Variety, fact.Quantity{}
	}
	return nil, fact.Quantity{}
}

// nearness ranks whom a price is for: the buyer by name, the buyer's kind, or
// everyone; -1 is somebody else.
func (n *Nursery) nearness(to, buyer fact.Name) int {
	if !to.Given() {
		return 0
	}
	if spelling.Fold(to.Text) == spelling.Fold(buyer.Text) {
		return 2
	}
	if p, ok := n.Party(buyer.Text); ok && p.Fact != nil && spelling.Fold(p.Fact.As.Text) == spelling.Fold(to.Text) {
		return 1
	}
	return -1
}
