package report

import (
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
)

// planDays are the days of a plan.
type planDays struct {
	start fact.Date // stocks are sown, stuck or bought; attempts begin where there are no stocks
	cut   fact.Date // wood is cut
	work  fact.Date // grafts are made, layers set, cuttings stuck or seed sown
	check fact.Date // the first look
	again fact.Date // failed stocks are worked again
	by    fact.Date
}

// days reckons backwards from the day on which the trees should be ready.
func (w *way) days(by, asAt fact.Date) planDays {
	limit := by - w.readyAfter(asAt)
	d := planDays{by: by, work: w.workDay(limit)}
	d.cut = d.work - w.woodAge()
	d.check = d.work + w.firstLook(asAt)
	d.again = d.work
	d.start = d.work
	if w.stock != nil {
		d.start -= w.stockAge(asAt)
		if again, ok := w.lag(w.againLag); ok {
			d.again = d.work + again
		}
	}
	return d
}

// spell is a number of days and how many plants took it.
type spell struct {
	days   fact.Date
	plants int32
}

// lag is the median of spells, each plant counted; ok is false where there are
// none.
func (w *way) lag(collect func(yield func(spell))) (median fact.Date, ok bool) {
	var list []spell
	total := int32(0)
	collect(func(s spell) {
		if s.days >= 0 && s.plants > 0 {
			list = append(list, s)
			total += s.plants
		}
	})
	return quantileOf(list, total, 1, 2)
}

// quantileOf is the shortest spell that num of den of all plants do not exceed.
func quantileOf(list []spell, total int32, num, den int32) (fact.Date, bool) {
	slices.SortFunc(list, func(a, b spell) int { return int(a.days - b.days) })
	sum := int64(0)
	for _, s := range list {
		if sum += int64(s.plants); sum*int64(den) >= int64(total)*int64(num) {
			return s.days, true
		}
	}
	return 0, false
}

// own are the attempts by which the way goes.
func (w *way) own(yield func(*nursery.Batch)) {
	for _, b := range w.n.Batches {
		if b.Kind == w.kind && b.Ordinal == 1 && !b.Limbs && b.Top.Variety == w.variety {
			yield(b)
		}
	}
}

// readyAfter is how long a young tree takes until it can be sold: what the species
// takes by rule, or what it took here where that was shorter or there is no rule.
func (w *way) readyAfter(asAt fact.Date) fact.Date {
	rule, ruled := w.n.Limit("saleable-age", asAt, w.variety.Name, w.variety.Species)
	here, known := w.lag(func(yield func(spell)) {
		for i := range w.n.Moves {
			m := &w.n.Moves[i]
			if m.How == fact.Sold && m.FromState == fact.Living && m.From.Batch != nil && m.From.Batch.Kind == w.kind && m.From.Top.Variety == w.variety {
				yield(spell{m.Entry.Day() - m.From.Batch.Day, m.N})
			}
		}
	})
	switch {
	case known && ruled:
		return min(rule.Days(), here)
	case ruled:
		return rule.Days()
	}
	return here
}

// workDay is the last day up to a limit that lies where the work is done here:
// on the median day of the season, or on the limit itself if that has passed
// the first tenth of the work. Where nothing is known it is the limit.
func (w *way) workDay(limit fact.Date) fact.Date {
	var list []spell
	total := int32(0)
	w.own(func(b *nursery.Batch) {
		list = append(list, spell{b.Day - w.n.Season(w.year(b.Day)).First, b.Made})
		total += b.Made
	})
	first, known := quantileOf(list, total, 1, 10)
	if !known {
		return limit
	}
	median, _ := quantileOf(list, total, 1, 2)
	switch season := w.n.Season(w.year(limit)); {
	case season.First+median <= limit:
		return season.First + median
	case season.First+first <= limit:
		return limit
	default:
		return w.n.Season(season.Year()-1).First + median
	}
}

func (w *way) year(d fact.Date) int { return fact.SeasonOf(d, w.n.SeasonFrom()).Year() }

// stockAge is how long a stock stands here until it is worked, else how long it
// has to by rule.
func (w *way) stockAge(asAt fact.Date) fact.Date {
	here, ok := w.lag(func(yield func(spell)) {
		w.own(func(b *nursery.Batch) {
			if b.From != nil && b.Stock.Variety == w.stock && (lastBatch(b.From) == nil) == w.bought {
				yield(spell{b.Day - b.From.Day, b.Made})
			}
		})
	})
	if ok {
		return here
	}
	rule, _ := w.n.Limit("stock-age", asAt, w.stock.Name, w.stock.Species)
	return rule.Days()
}

// woodAge is for how long wood had been cut here when it was used.
func (w *way) woodAge() fact.Date {
	here, _ := w.lag(func(yield func(spell)) {
		w.own(func(b *nursery.Batch) {
			for _, s := range b.Wood {
				if bundle, ok := s.Thing.(*nursery.Bundle); ok {
					yield(spell{b.Day - bundle.Day, b.Made})
				}
			}
		})
	})
	return here
}

// firstLook is how long after the work the first look is taken: by rule, by the
// method used most.
func (w *way) firstLook(asAt fact.Date) fact.Date {
	here, ok := w.lag(func(yield func(spell)) {
		w.own(func(b *nursery.Batch) { yield(spell{b.FirstCheck - b.Day, b.Made}) })
	})
	if ok {
		return here
	}
	rule, _ := w.n.Limit("first-check", asAt, w.variety.Name, w.variety.Species)
	return rule.Days()
}

// againLag is the time from a first attempt to the second on the same stocks.
func (w *way) againLag(yield func(spell)) {
	for _, b := range w.n.Batches {
		if first := firstAttempt(b); b.Kind == nursery.GraftBatch && b.Ordinal > 1 && first != nil && first.Top.Species() == w.variety.Species {
			yield(spell{b.Day - first.Day, b.Made})
		}
	}
}
