package report

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/stat"
)

// A link is one gate on the way from seed to a saleable tree, with what the
// journal knows of it.
type link struct {
	name    string // as --what-if has it
	what    string // those that pass, in half a sentence
	seasons [][]stat.Tally
	of      string // whose records they are: a variety, a species, or all
	outlook stat.Outlook
	chance  stat.Chance
	unknown bool // nothing is recorded
	assumed bool // by --what-if
}

// The names of the links.
const (
	seedLink  = "seed"
	rootLink  = "root"
	stockLink = "stock"
	takeLink  = "take"
	againLink = "again"
	saleLink  = "sale"
)

// PlanLinks are the links that --what-if may suppose something of.
var PlanLinks = []string{seedLink, rootLink, stockLink, takeLink, againLink, saleLink}

// pool is all that is known of the link.
func (l link) pool() stat.Tally {
	var pool stat.Tally
	for _, lots := range l.seasons {
		p := stat.Pool(lots)
		pool.X += p.X
		pool.N += p.N
	}
	return pool
}

// records reads what the journal knows of links, about one variety, one species
// or everything, the nearest that knows enough.
type records struct {
	n    *nursery.Nursery
	asAt fact.Date
	what map[string]float64
}

// enoughToPlan is how many known outcomes of a variety make those of its
// relatives needless: common practice, no source.
const enoughToPlan = 30

// nearest asks about the variety, its species and everything until enough is
// known.
func (r *records) nearest(l link, v *nursery.Variety, ask func(among func(nursery.Identity) bool) [][]stat.Tally) link {
	wider := []struct {
		of    string
		among func(nursery.Identity) bool
	}{
		{v.Name, func(id nursery.Identity) bool { return id.Variety == v }},
		{v.Species, func(id nursery.Identity) bool { return id.Species() == v.Species }},
		{"all", func(nursery.Identity) bool { return true }},
	}
	for i, w := range wider {
		if w.of == "" {
			continue
		}
		known := l
		known.of, known.seasons = w.of, ask(w.among)
		if i == 0 || known.pool().N > l.pool().N {
			l = known
		}
		if l.pool().N >= enoughToPlan {
			break
		}
	}
	return r.foreseen(l)
}

// foreseen gives a link its law: what was supposed, or what the seasons say.
func (r *records) foreseen(l link) link {
	if share, ok := r.what[l.name]; ok {
		l.assumed, l.chance = true, stat.Certain(share)
		return l
	}
	outlook, ok := stat.Foresee(l.seasons)
	if !ok {
		l.unknown = true
		return l
	}
	l.outlook, l.chance = outlook, outlook.Chance()
	return l
}

// attempts is the link of attempts: what succeeded of those whose outcome is
// known, of first attempts.
func (r *records) attempts(name, what string, kind nursery.BatchKind, v *nursery.Variety) link {
	return r.nearest(link{name: name, what: what}, v, func(among func(nursery.Identity) bool) [][]stat.Tally {
		lots := map[int][]stat.Tally{}
		for _, b := range r.n.Batches {
			if o := outcome(b); b.Kind == kind && b.Ordinal == 1 && !b.Limbs && among(b.Top) && o.N > 0 && !provisional(b, r.asAt) {
				year := r.year(b.Day)
				lots[year] = append(lots[year], o)
			}
		}
		return inOrder(lots)
	})
}

func (r *records) year(d fact.Date) int { return fact.SeasonOf(d, r.n.SeasonFrom()).Year() }

// inOrder are the lots of each season, by year.
func inOrder(lots map[int][]stat.Tally) [][]stat.Tally {
	var list [][]stat.Tally
	for _, year := range slices.Sorted(maps.Keys(lots)) {
		list = append(list, lots[year])
	}
	return list
}

// again is the link of stocks that failed once: those that ended with a living
// top all the same, since they were worked again.
func (r *records) again(v *nursery.Variety) link {
	l := link{name: againLink, what: "failed stocks that took when worked again"}
	ends := endsOfStocks(r.n)
	return r.nearest(l, v, func(among func(nursery.Identity) bool) [][]stat.Tally {
		lots := map[int][]stat.Tally{}
		for _, b := range r.n.Batches {
			if b.Kind != nursery.GraftBatch || b.Ordinal != 1 || b.Limbs || !among(b.Top) || b.Failed == 0 || ends[b].unknown > 0 {
				continue
			}
			rescued := min(max(ends[b].took-(b.Took-b.Late), 0), b.Failed)
			year := r.year(b.Day)
			lots[year] = append(lots[year], stat.Tally{X: int(rescued), N: int(b.Failed)})
		}
		return inOrder(lots)
	})
}

// grown is the link of plants that came to what was wanted of them, of those old
// enough by a limit: plants of attempts, or plants that were bought.
func (r *records) grown(l link, v *nursery.Variety, age string, made func(*nursery.Batch) bool, bought bool) link {
	return r.nearest(l, v, func(among func(nursery.Identity) bool) [][]stat.Tally {
		c := &cohorts{
			n: r.n, of: among, made: made, bought: bought, until: r.asAt, years: map[*nursery.Lot]int{},
		}
		if limit, ok := r.n.Limit(age, r.asAt, v.Name, v.Species); ok {
			c.until -= limit.Days()
		}
		lots := map[int][]stat.Tally{}
		for year, t := range c.fates() {
			if t.N > 0 {
				lots[year] = append(lots[year], t)
			}
		}
		return inOrder(lots)
	})
}

// restsOn says in words what a link rests on.
func (l link) restsOn() string {
	switch {
	case l.assumed:
		return "supposed"
	case l.unknown:
		return "nothing recorded"
	}
	pool := l.pool()
	return fmt.Sprintf("%s of %s", grouping(pool.X), grouping(pool.N))
}

// weakest is the link of which least is known, of those that rest on records.
func weakest(links []link) (link, bool) {
	list := slices.DeleteFunc(slices.Clone(links), func(l link) bool { return l.assumed })
	if len(list) == 0 {
		return link{}, false
	}
	return slices.MinFunc(list, func(a, b link) int {
		return cmp.Compare(a.outlook.Alpha+a.outlook.Beta, b.outlook.Alpha+b.outlook.Beta)
	}), true
}
