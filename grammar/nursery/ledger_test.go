package nursery

import (
	"testing"

	"github.com/budstick/budstick/grammar/fact"
)

// Of failed plants, those go first of which nothing is known, then those whose
// interstock lives, and last those that had taken before. Of living ones, those
// that have their new top.
func TestWhichPlantsGoFirst(t *testing.T) {
	for _, c := range []struct{ count, upper, late, bare int32 }{
		{3, 0, 0, 0}, {4, 1, 0, 0}, {7, 4, 0, 0}, {8, 4, 1, 1}, {10, 4, 3, 3},
	} {
		l := &Lot{Bare: 3, late: 3, upper: 4}
		l.On[fact.Failed], l.On[fact.Living] = 10, 10
		failed, living := l.take(fact.Failed, c.count), l.take(fact.Living, c.count)
		if failed.upper != c.upper || failed.late != c.late || living.bare != c.bare {
			t.Errorf("%d: %+v and %+v, want %+v", c.count, failed, living, c)
		}
		l.put(fact.Failed, c.count, failed)
		l.put(fact.Living, c.count, living)
		if l.upper != 4 || l.late != 3 || l.Bare != 3 || l.On[fact.Failed] != 10 || l.On[fact.Living] != 10 {
			t.Errorf("%d, put back: %+v", c.count, l)
		}
	}
}
