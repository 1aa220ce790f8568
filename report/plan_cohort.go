package report

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/stat"
)

// Cohorts are living plants of one kind, such as what took of the grafts of a
// variety, what came up of its seed, or liners that were bought, parted by the
// year of the season in which they began.
type cohorts struct {
	n      *nursery.Nursery
	of     func(nursery.Identity) bool // what the plants are
	made   func(*nursery.Batch) bool   // whether the plants of attempts belong to them
	bought bool                        // whether plants that were bought do
	until  fact.Date                   // those that began later are too young to tell
	years  map[*nursery.Lot]int        // 0: of no cohort
}

// yearOf is the season of a lot's cohort, and 0 where it is of none.
func (c *cohorts) yearOf(l *nursery.Lot) int {
	if l == nil {
		return 0
	}
	year, ok := c.years[l]
	if !ok {
		c.years[l] = 0 // a lot can't be its own root, but a journal is not to be trusted
		year = c.find(l)
		c.years[l] = year
	}
	return year
}

func (c *cohorts) find(l *nursery.Lot) int {
	season := func(d fact.Date) int {
		if d > c.until {
			return 0
		}
		return fact.SeasonOf(max(d, 1), c.n.SeasonFrom()).Year()
	}
	switch {
	case l.Limbs, !c.of(l.Top):
		return 0
	case l.Batch != nil:
		if !c.made(l.Batch) {
			return 0
		}
		return season(l.Batch.Day)
	case len(l.Batches) > 0:
		year := 0
		for i, b := range l.Batches {
			of := 0
			if c.made(b) {
				of = season(b.Day)
			}
			if i > 0 && of != year {
				return 0
			}
			year = of
		}
		return year
	case l.Grafted():
		return 0
	case l.How == fact.Bought:
		if !c.bought {
			return 0
		}
		return season(l.Day)
	}
	year := 0
	for i, s := range l.Roots {
		from, _ := s.Thing.(*nursery.Lot)
		of := c.yearOf(from)
		if i > 0 && of != year {
			return 0
		}
		year = of
	}
	return year
}

// alive are the states of plants that succeeded so far.
func alive(s fact.State) bool { return s == fact.Living || s == fact.Attached }

// fates are, by the season in which a cohort began, how many of its plants came
// to what was wanted of them (sold, given, planted out, worked, or standing
// still) of those of which it is known. What was joined with others, or is
// counted over, says nothing.
func (c *cohorts) fates() map[int]stat.Tally {
	fates := map[int]stat.Tally{}
	add := func(year int, reached, lost int32) {
		t := fates[year]
		fates[year] = stat.Tally{X: t.X + int(reached), N: t.N + int(reached) + int(lost)}
	}
	for i := range c.n.Moves {
		m := &c.n.Moves[i]
		if m.From == nil || !alive(m.FromState) || m.N <= 0 || !c.of(m.From.Top) {
			continue
		}
		year := c.yearOf(m.From)
		if year == 0 || c.yearOf(m.To) == year && alive(m.ToState) {
			continue
		}
		switch m.How {
		case fact.Sold, fact.Given, fact.PlantedOut, fact.Grafted, fact.Worked:
			add(year, m.N, 0)
		case fact.Lost, fact.Culled, fact.Checked, fact.FailedLate, fact.Counted:
			add(year, 0, m.N)
		}
	}
	for _, l := range c.n.Lots {
		if l.Plants() == 0 || !c.of(l.Top) {
			continue
		}
		if year := c.yearOf(l); year != 0 {
			add(year, l.On[fact.Living]+l.On[fact.Attached], 0)
		}
	}
	return fates
}
