package report

import (
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/stat"
	"github.com/budstick/budstick/report/table"
)

// A worked is what became of the stocks of a first attempt, worked again or not.
type worked struct {
	again   int32 // attempts after the first
	took    int32 // stocks that ended with a living top
	unknown int32 // stocks that wait, or left before a verdict
}

// stocks is the table of stocks that ended with a living top: how many trees a
// hundred seedlings give. It has rows only where some were worked again.
func (t *takeTable) stocks(n *nursery.Nursery, o Options) table.Table {
	tab := t.ofGroups("stocks", "Stocks, worked again or not", counts("stocks", "worked", "again", "again", "known", "known", "with_top", "with a top"),
		rateColumns("", "stock take"))
	if o.Attempts == Again {
		return tab
	}
	ends := endsOfStocks(n)
	for _, g := range t.groups {
		var made, again int32
		var pool stat.Tally
		var lots []stat.Tally
		for _, b := range g.batches {
			if b.Ordinal > 1 || b.Limbs {
				continue
			}
			end := ends[b]
			made += b.Made
			again += end.again
			add(&pool, &lots, end.took, b.Made-end.unknown)
		}
		if again > 0 {
			row := append(g.cells(), table.Count(made), table.Count(again), table.Count(pool.N), table.Count(pool.X))
			tab.Add(append(row, rateCells(pool, t.between, lots)...)...)
		}
	}
	tab.Notes = []string{"A stock counts once, by what it ended with, whoever worked it again and how. A top that failed later does not count."}
	return tab
}

// endsOfStocks follows the stocks of each first attempt through every later one.
func endsOfStocks(n *nursery.Nursery) map[*nursery.Batch]worked {
	ends := map[*nursery.Batch]worked{}
	for _, b := range n.Batches {
		if b.Kind != nursery.GraftBatch {
			continue
		}
		first := firstAttempt(b)
		if first == nil {
			continue
		}
		end := ends[first]
		end.took += b.Took - b.Late
		end.unknown += b.Waiting() + b.Left
		if first != b {
			end.again += b.Made
			if f, ok := b.Entry.Effect.(*fact.Graft); ok && f.State == fact.Waiting {
				end.unknown -= b.Made // it had left the one before without a verdict
			}
		}
		ends[first] = end
	}
	return ends
}

// firstAttempt is the first attempt on the stocks of a later one, or nil where
// lots were joined in between and nobody can say whose they are.
func firstAttempt(b *nursery.Batch) *nursery.Batch {
	for b != nil && b.Ordinal > 1 {
		b = attemptBefore(b)
	}
	return b
}

func attemptBefore(b *nursery.Batch) *nursery.Batch {
	l := b.From
	for l != nil && l.Batch == nil && len(l.Batches) == 0 && len(l.Roots) == 1 {
		l, _ = l.Roots[0].Thing.(*nursery.Lot)
	}
	if l == nil {
		return nil
	}
	return l.Batch
}

// scions is the table of stocks that carry several scions each: the stock take
// beside the scion take.
func (t *takeTable) scions() table.Table {
	tab := t.ofGroups("scions", "Stocks with several scions", counts("known", "stocks", "took", "took"), rateColumns("stock_", "stock take"),
		counts("scions_known", "scions", "scions_alive", "alive"), rateColumns("scion_", "scion take"))
	for _, g := range t.groups {
		var stocks, scions stat.Tally
		var lots, scionLots []stat.Tally
		for _, b := range g.batches {
			if b.ScionsEach > 1 {
				add(&stocks, &lots, b.Took, b.Known())
				add(&scions, &scionLots, b.ScionsAlive, b.ScionsKnown)
			}
		}
		if stocks.N == 0 {
			continue
		}
		tab.Add(slices.Concat(g.cells(),
			[]table.Cell{table.Count(stocks.N), table.Count(stocks.X)}, rateCells(stocks, t.between, lots),
			[]table.Cell{table.Count(scions.N), table.Count(scions.X)}, rateCells(scions, t.between, scionLots))...)
	}
	tab.Notes = []string{"A stock took if one scion lives. Scions count where a check gives the number that live: check AM26: 36 took with 67 scions, 4 failed."}
	return tab
}
