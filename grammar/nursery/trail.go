package nursery

import "github.com/budstick/budstick/grammar/fact"

// A Use is wood or seed that one entry takes out of a bundle.
type Use struct {
	Entry *fact.Entry
	How   fact.How // Grafted, Stuck, Sown, Sold, Given, Lost or Culled
	From  *Bundle
	N     int32
}

// draw takes parts out of a bundle. The caller has made sure that it may.
func (n *Nursery) draw(how fact.How, b *Bundle, count int32) {
	switch how {
	case fact.Sold, fact.Given:
		b.Sold += count
	case fact.Lost, fact.Culled:
		b.Lost += count
	default:
		b.Used += count
	}
	n.Uses = append(n.Uses, Use{n.now, how, b, count})
}

// A Spot is where a lot stands and in what, from an entry on.
type Spot struct {
	By    *fact.Entry
	Place *Place
	Pot   Pot
}

// settleSpots writes down where the lots stand that the entry at hand made,
// potted or moved.
func (n *Nursery) settleSpots() {
	for _, l := range n.shifted {
		now := Spot{n.now, l.Place, l.Pot}
		if k := len(l.Spots); k > 0 && l.Spots[k-1].Place == now.Place && l.Spots[k-1].Pot == now.Pot {
			continue
		}
		l.Spots = append(l.Spots, now)
	}
	n.shifted = n.shifted[:0]
}

// SpotOn is where a lot stood at the end of a day, and in what.
func (l *Lot) SpotOn(day fact.Date) Spot {
	for i := len(l.Spots) - 1; i > 0; i-- {
		if l.Spots[i].By.Date <= day {
			return l.Spots[i]
		}
	}
	if len(l.Spots) == 0 {
		return Spot{}
	}
	return l.Spots[0]
}
