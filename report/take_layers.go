package report

import (
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/stat"
	"github.com/budstick/budstick/report/table"
)

// establishedAfter is how long a severed layer must live to count as
// established: common practice, no source.
const establishedAfter = 90

// established is the table of layers that were severed: those that live on
// their own roots 90 days later.
func (t *takeTable) established(n *nursery.Nursery, o Options) table.Table {
	tab := t.ofGroups("established", "Layers after they were severed",
		counts("set", "set", "severed", "severed", "known", "known", "alive", "alive"), rateColumns("", "established"),
		[]table.Column{{Name: "yield", Heading: "of those set", Kind: table.KindRate, Spare: 1}})
	fates := severedFates(n, o.AsAt)
	for _, g := range t.groups {
		var made, severed int32
		var pool stat.Tally
		var lots []stat.Tally
		ended := true // whatever was set has run its course
		for _, b := range g.batches {
			made += b.Made
			f := fates[b]
			if f == nil {
				f = &severedFate{}
			}
			severed += f.severed
			add(&pool, &lots, f.alive, f.alive+f.dead)
			ended = ended && b.Waiting()+b.Left == 0 && f.severed == b.Took-b.Late && f.severed == f.alive+f.dead
		}
		if severed == 0 {
			continue
		}
		yield := table.Unknown()
		if ended {
			yield = ratio(pool.X, int(made))
		}
		row := append(g.cells(), table.Count(made), table.Count(severed), table.Count(pool.N), table.Count(pool.X))
		tab.Add(append(append(row, rateCells(pool, t.between, lots)...), yield)...)
	}
	tab.Notes = []string{"Alive 90 days after severing, of those severed so long ago; what was sold or planted before is left out. " +
		"Where a lot was severed in several goes, those severed first are taken to leave first."}
	return tab
}

// A severedFate is what became of the severed layers of a batch.
type severedFate struct {
	severed     int32
	alive, dead int32 // 90 days after
}

// A cohort is plants of a lot that were severed on one day.
type severedOn struct {
	day   fact.Date
	count int32
}

// severedFates follows severed layers through the moves of their lots.
func severedFates(n *nursery.Nursery, asAt fact.Date) map[*nursery.Batch]*severedFate {
	fates := map[*nursery.Batch]*severedFate{}
	inLot := map[*nursery.Lot][]severedOn{}
	for i := range n.Moves {
		m := &n.Moves[i]
		b := batchOfMove(m)
		if b == nil || b.Kind != nursery.LayerBatch {
			continue
		}
		fate := fates[b]
		if fate == nil {
			fate = &severedFate{}
			fates[b] = fate
		}
		switch {
		case m.How == fact.Severed:
			fate.severed += m.N
			inLot[m.To] = append(inLot[m.To], severedOn{m.Entry.Day(), m.N})
		case m.From == nil || m.FromState != fact.Living || m.From == m.To:
		case m.To != nil && m.To.Batch == b:
			inLot[m.To] = append(inLot[m.To], leaveFirst(inLot, m.From, m.N)...)
		default:
			for _, c := range leaveFirst(inLot, m.From, m.N) {
				switch {
				case m.Entry.Day() >= c.day+establishedAfter:
					fate.alive += c.count
				case died(m):
					fate.dead += c.count
				}
			}
		}
	}
	for l, left := range inLot {
		for _, c := range left {
			if fate := fates[l.Batch]; fate != nil && asAt >= c.day+establishedAfter {
				fate.alive += c.count
			}
		}
	}
	return fates
}

// leaveFirst takes plants out of a lot, those that were severed first.
func leaveFirst(inLot map[*nursery.Lot][]severedOn, l *nursery.Lot, n int32) []severedOn {
	var out []severedOn
	for queue := inLot[l]; n > 0 && len(queue) > 0; {
		take := min(n, queue[0].count)
		out = append(out, severedOn{queue[0].day, take})
		n -= take
		queue[0].count -= take
		if queue[0].count == 0 {
			queue = slices.Delete(queue, 0, 1)
		}
		inLot[l] = queue
	}
	return out
}

// batchOfMove is the attempts that the plants of a move are part of, or nil.
func batchOfMove(m *nursery.Move) *nursery.Batch {
	switch {
	case m.From != nil:
		return m.From.Batch
	case m.To != nil:
		return m.To.Batch
	}
	return nil
}

// died reports whether plants went out by dying: found dead at a check, or
// lost.
func died(m *nursery.Move) bool { return m.How == fact.Checked && m.To == nil || m.How == fact.Lost }
