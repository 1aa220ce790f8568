package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
)

// stockBorn is the day on which the stocks of a lot were sown or struck; the
// youngest, of a joined lot. It reports false where that is not known.
func stockBorn(l *nursery.Lot) (fact.Date, bool) { return born(l, new(maxPast)) }

func born(l *nursery.Lot, left *int) (fact.Date, bool) {
	switch *left--; {
	case l == nil || *left < 0 || l.How == fact.Bought || l.How == fact.Returned:
		return 0, false
	case l.How == fact.Sown || l.How == fact.Stuck || l.How == fact.Layered:
		return l.Day, true
	}
	var youngest fact.Date
	for _, s := range l.Roots {
		from, _ := s.Thing.(*nursery.Lot)
		day, ok := born(from, left)
		if !ok {
			return 0, false
		}
		youngest = max(youngest, day)
	}
	return youngest, youngest != 0
}
