package report

import (
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/stat"
	"github.com/budstick/budstick/report/table"
)

// samples is the table of looks at some of a lot. They estimate and move no
// count; of several looks at one lot the last is taken.
func (t *takeTable) samples(n *nursery.Nursery) table.Table {
	tab := t.ofGroups("samples", "By samples", counts("lots", "lots", "looked_at", "looked at", "took", t.words.took, "failed", "failed", "unsure", "unsure"), rateColumns("", t.words.rate))
	last := map[*nursery.Batch][]*fact.Entry{}
	for _, e := range n.Samples {
		thing, _ := n.Thing(e.Effect.(*fact.Check).Lot.Text)
		l, ok := thing.(*nursery.Lot)
		if !ok || l.Batch == nil {
			continue
		}
		// Looks at different lots of one batch, parted since, are one look.
		looks := slices.DeleteFunc(last[l.Batch], func(old *fact.Entry) bool { return old.Day() < e.Day() })
		last[l.Batch] = append(looks, e)
	}
	for _, g := range t.groups {
		var sum looks
		for _, b := range g.batches {
			sum.add(last[b])
		}
		if sum.lots == 0 {
			continue
		}
		row := append(g.cells(), table.Count(sum.lots), table.Count(sum.at()), table.Count(sum.good), table.Count(sum.bad), table.Count(sum.unsure))
		tab.Add(append(row, rateCells(stat.Tally{X: sum.good, N: sum.good + sum.bad}, t.between, sum.perLot, table.Estimated)...)...)
	}
	tab.Notes = []string{"A look at some of a lot, taken to stand for the rest; it is in no figure above. Of several looks at a lot the last is taken."}
	return tab
}

// looks are the verdicts of samples, added up.
type looks struct {
	lots, good, bad, unsure int
	perLot                  []stat.Tally
}

func (s *looks) at() int { return s.good + s.bad + s.unsure }

func (s *looks) add(entries []*fact.Entry) {
	if len(entries) == 0 {
		return
	}
	s.lots++
	var lot stat.Tally
	for _, e := range entries {
		for _, o := range e.Effect.(*fact.Check).Outcomes {
			n := int(o.Count.N)
			switch o.Verdict {
			case fact.Took, fact.Rooted, fact.Up:
				s.good += n
				lot.X += n
				lot.N += n
			case fact.Unsure:
				s.unsure += n
			default:
				s.bad += n
				lot.N += n
			}
		}
	}
	if lot.N > 0 {
		s.perLot = append(s.perLot, lot)
	}
}
