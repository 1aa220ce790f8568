package nursery

import (
	"fmt"
	"slices"

	"github.com/budstick/budstick/grammar/fact"
)

// join makes one lot of several.
func (n *Nursery) join(f *fact.Join) {
	lots := make([]*Lot, 0, len(f.Lots))
	for _, name := range f.Lots {
		l, ok := n.lot(name)
		if !ok || !n.joins(lots, l, name) {
			return
		}
		lots = append(lots, l)
	}
	if len(lots) < 2 {
		n.refuse(f.Lots[0].Span, "join-one", "joining takes two lots or more: join AM26, AM26b as AM26t")
		return
	}
	total := int64(0)
	for _, l := range lots {
		total += int64(l.Plants())
	}
	if !n.bounded(f.As.Span, 0, total, "plants", f.As.Text) || !n.free(f.As) {
		return
	}
	d := n.derive(f.As, fact.Joined, lots[0], false)
	d.Roots, d.Marks = nil, nil
	d.Batch, d.Batches = oneBatch(lots)
	for _, l := range lots {
		d.absorb(l)
		for s := fact.Living; s < fact.States; s++ {
			n.passOn(fact.Joined, l, s, d, s, l.On[s])
		}
	}
	d.AtLeast = d.AtLeast || triedApart(lots)
}

// joins refuses a lot that can't be joined to those before it.
func (n *Nursery) joins(lots []*Lot, l *Lot, name fact.Name) bool {
	switch {
	case slices.Contains(lots, l):
		n.refuse(name.Span, "join-one", l.Name+" stands twice in this list", l.Name)
	case l.Limbs:
		n.refuse(name.Span, "wrong-kind", l.Name+" is limbs of a tree, which can't be joined", l.Name)
	case l.On[fact.Waiting]+l.On[fact.Attached] > 0, l.hangs(fact.Failed) && l.On[fact.Failed] > 0:
		n.refuse(name.Span, "join-waiting", fmt.Sprintf("%s still holds %s; check (and sever) first, then join", l.Name, l.states()), l.Name)
	case l.Plants() == 0:
		n.refuse(name.Span, "empty-lot", l.Name+" is empty, so there is nothing to join", l.Name)
	case len(lots) > 0 && lots[0].Top.Species() != l.Top.Species():
		n.refuse(name.Span, "join-species", fmt.Sprintf("%s is %s and %s is %s; different species can't be one lot",
			lots[0].Name, lots[0].Top.Species(), l.Name, l.Top.Species()), l.Name, lots[0].Name)
	case len(lots) > 0 && lots[0].Top != l.Top:
		n.refuse(name.Span, "join-variety", fmt.Sprintf("%s is %s and %s is %s; joined, nobody could say which plant is which",
			lots[0].Name, lots[0].Top, l.Name, l.Top), l.Name, lots[0].Name)
	default:
		return true
	}
	return false
}

// absorb takes over what a joined lot must remember of one of its parts.
func (l *Lot) absorb(part *Lot) {
	l.Roots = append(l.Roots, Source{Thing: part})
	l.Day = max(l.Day, part.Day)
	l.Tries = max(l.Tries, part.Tries)
	l.ordinal = max(l.ordinal, part.ordinal)
	l.AtLeast = l.AtLeast || part.AtLeast
	l.About = l.About || part.About
	l.Beside = l.Beside || part.Beside
	l.MixedBelow = l.MixedBelow || part.MixedBelow || !slices.Equal(l.Below, part.Below)
	if !l.Grafted() {
		l.Below, l.Inter = part.Below, part.Inter
	}
	for _, s := range part.Wood {
		if !slices.Contains(l.Wood, s) {
			l.Wood = append(l.Wood[:len(l.Wood):len(l.Wood)], s)
		}
	}
	for _, m := range part.Marks {
		if !slices.Contains(l.Marks, m) {
			l.Marks = append(l.Marks, m)
		}
	}
}

// oneBatch is the batch that all plants of some lots are part of, or else all
// batches of which each is part of one, or of none.
func oneBatch(lots []*Lot) (*Batch, []*Batch) {
	var all []*Batch
	seen := map[*Batch]bool{nil: true}
	same := true
	for _, l := range lots {
		same = same && l.Batch != nil && l.Batch == lots[0].Batch
		for _, b := range append([]*Batch{l.Batch}, l.Batches...) {
			if !seen[b] {
				seen[b] = true
				all = append(all, b)
			}
		}
	}
	if same {
		return lots[0].Batch, nil
	}
	return nil, all
}

// triedApart reports whether the plants of some lots that are joined may have
// been worked more or less often than one another.
func triedApart(lots []*Lot) bool {
	grafts := map[*Batch]bool{}
	most, _ := lots[0].worked()
	for _, l := range lots {
		times, atLeast := l.worked()
		if atLeast || times != most || l.Tries != lots[0].Tries {
			return true
		}
		if l.Batch != nil && l.Batch.Kind == GraftBatch {
			grafts[l.Batch] = true
		}
	}
	return len(grafts) > 1
}
