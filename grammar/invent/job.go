package invent

import (
	"fmt"
	"time"

	"github.com/budstick/budstick/grammar/fact"
)

// entriesAJob is about how many entries a job writes.
const entriesAJob = 19

// job writes one job that begins on or after a day.
func (j *journal) job(day fact.Date) {
	j.jobs++
	switch c := pick(j, crops); {
	case j.maybe(0.12):
		j.harvest(day, c)
	case j.maybe(0.08):
		j.month(day)
	case c.layered:
		j.layers(day, c)
	default:
		j.grafts(day, c)
	}
}

// seasonDay is the next day in a month from day on, somewhere in that month.
func (j *journal) seasonDay(day fact.Date, month int) fact.Date {
	y, m, _ := day.Civil()
	if int(m) > month {
		y++
	}
	d, _ := fact.NewDate(y, time.Month(month), j.between(1, 28))
	if d < day {
		d, _ = fact.NewDate(y+1, time.Month(month), j.between(1, 28))
	}
	return d
}

func (j *journal) hours(minutes int) string {
	if h := minutes / 60; h > 0 && minutes%60 > 0 {
		return fmt.Sprintf("%d h %d min", h, minutes%60)
	} else if h > 0 {
		return fmt.Sprintf("%d h", h)
	}
	return fmt.Sprintf("%d min", max(1, minutes))
}

// grafts is a job from seed to sale.
func (j *journal) grafts(day fact.Date, c crop) {
	id := fmt.Sprintf("%d", j.jobs)
	stock, seeds := c.code+"S"+id, 20*j.between(3, 12)
	j.on(day, "sow %d seed of %q as %s from \"Seed merchant\" for %d.%02d at bench", seeds, c.stock, stock, seeds/8, j.between(0, 99))
	day += fact.Date(j.between(40, 60))
	up := j.some(seeds, j.sway(0.8))
	up = max(up, 8)
	j.on(day, "check %s: %d up, %d dead", stock, up, seeds-up)
	j.on(day+14, "pot %s to 1 L", stock)
	j.on(day+14, "work potting worker %s %s for %s", pick(j, j.hands).name, j.hours(up*2), stock)
	if culled := j.some(up, 0.05); culled > 0 && culled < up-4 {
		up -= culled
		j.on(day+90, "cull %d of %s because \"runts\"", culled, stock)
	}
	day = j.seasonDay(day+240, c.month)
	variety, m := j.rnd.IntN(len(c.tops)), j.rnd.IntN(j.mothers)
	worker, method := pick(j, j.hands), pick(j, c.method)
	worked := max(4, up-j.between(0, up/8))
	wood := c.code + "W" + id
	j.on(day-3, "cut %d scions from %s as %s store cool", worked+j.between(0, 12), j.mother(c, variety, m), wood)
	if j.maybe(0.3) {
		j.on(day-3, "spend %d.%02d on \"grafting tape\" for %s", j.between(8, 40), j.between(0, 99), stock)
	}
	lot := c.code + "G" + id
	j.on(day, "graft %d of %s with %s by %s as %s at %s\n  worker %s %s", worked, stock, wood, method, lot, pick(j, places), worker.name, j.hours(worked*3))
	rate := c.takeRate + worker.skill - 0.03*float64(m%4)
	if method == "bark" {
		rate -= 0.08
	}
	j.graftLot(day, c, graftLot{name: lot, mother: j.mother(c, variety, m), count: worked, rate: rate, worker: worker})
	if left := up - worked; left > 0 {
		j.on(day+60, "sell %d of %s to %q at 2.20 each", left, stock, pick(j, buyers))
	}
}

// graftLot is a lot of grafts on its way to sale.
type graftLot struct {
	name, mother string
	worker       hand
	count        int
	rate         float64
	again        bool
}

// graftLot follows grafts from the bench to the buyer.
func (j *journal) graftLot(day fact.Date, c crop, g graftLot) {
	checked := day + fact.Date(j.between(30, 45))
	took := j.some(g.count, j.sway(g.rate))
	dead := j.some(g.count-took, 0.2)
	failed := g.count - took - dead
	j.on(checked, "check %s: %d took, %d failed, %d dead", g.name, took, failed, dead)
	j.on(checked, "tend %s rubbed", g.name)
	if failed >= 3 && !g.again && j.maybe(0.6) {
		again := g.name + "b"
		j.on(checked+4, "graft %d failed of %s with %s by cleft as %s worker %s %s", failed, g.name, g.mother, again, g.worker.name, j.hours(failed*4))
		j.graftLot(checked+4, c, graftLot{name: again, mother: g.mother, worker: g.worker, count: failed, rate: g.rate - 0.15, again: true})
		failed = 0
	}
	j.on(checked+20, "tend %s ties", g.name)
	if failed > 0 {
		j.on(checked+30, "cull %d failed of %s because \"not worth the pot\"", failed, g.name)
	}
	if took == 0 {
		return
	}
	if late := j.some(took, 0.03); late > 0 && late < took {
		took -= late
		j.on(checked+35, "fail %d of %s", late, g.name)
		j.on(checked+36, "lose %d failed of %s to %s", late, g.name, pick(j, causes))
	}
	j.on(checked+40, "pot %s to 3 L", g.name)
	j.on(checked+40, "spend %d.%02d on pots for %s", took, j.between(0, 99), g.name)
	if lost := j.some(took, 0.04); lost > 0 && lost < took {
		took -= lost
		j.on(checked+70, "lose %d of %s to %s", lost, g.name, pick(j, causes))
	}
	j.sales(day+j.days(c.saleable, c.saleable+60), c, g.name, took, c.price)
}

func (j *journal) days(a, b int) fact.Date { return fact.Date(j.between(a, b)) }

// sales sells what is left of a lot in a few goes.
func (j *journal) sales(day fact.Date, c crop, lot string, left int, price float64) {
	j.on(day, "count %s %d", lot, left)
	if keep := left / 8; keep > 0 && j.maybe(0.2) {
		j.on(day, "plant %d of %s at yard", keep, lot)
		left -= keep
	}
	for i := 0; left > 0; i++ {
		n := min(left, j.between(1, max(1, left/2+2)))
		if i == 2 {
			n = left
		}
		cents := int(100*price) + 50*j.between(-3, 4)
		j.on(day, "sell %d of %s to %q at %d.%02d each", n, lot, pick(j, buyers), cents/100, cents%100)
		left -= n
		day += j.days(10, 50)
	}
}

// layers is a job from branch to sale.
func (j *journal) layers(day fact.Date, c crop) {
	day = j.seasonDay(day, c.month)
	lot := fmt.Sprintf("%sA%d", c.code, j.jobs)
	set := j.between(6, 24)
	from := j.mother(c, j.rnd.IntN(len(c.tops)), j.rnd.IntN(j.mothers))
	worker := pick(j, j.hands)
	j.on(day, "layer %d on %s as %s hormone IBA 3000 ppm wound 25 mm worker %s %s", set, from, lot, worker.name, j.hours(set*6))
	rooted := j.some(set, j.sway(c.takeRate+worker.skill))
	failed := j.some(set-rooted, 0.5)
	checked := day + j.days(56, 80)
	j.on(checked, "check %s: %d rooted, %d failed, %d dead", lot, rooted, failed, set-rooted-failed)
	if rooted == 0 {
		return
	}
	j.on(checked+1, "sever %d of %s", rooted, lot)
	j.on(checked+1, "pot %s to 3 L", lot)
	j.on(checked+1, "move %s to %s", lot, pick(j, places))
	if lost := j.some(rooted, 0.12); lost > 0 && lost < rooted {
		rooted -= lost
		j.on(checked+60, "lose %d of %s to %s", lost, lot, pick(j, causes))
	}
	j.on(checked+90, "note %s \"roots to the pot wall\"", lot)
	j.sales(checked+j.days(c.saleable, c.saleable+80), c, lot, rooted, c.price)
}

// harvest is fruit off a mother tree.
func (j *journal) harvest(day fact.Date, c crop) {
	day = j.seasonDay(day, c.harvest)
	tree := j.mother(c, j.rnd.IntN(len(c.tops)), j.rnd.IntN(j.mothers))
	for range j.between(2, 6) {
		kilos := j.between(6, 60)
		fruit := int(float64(kilos)/c.fruit*(0.9+0.2*j.rnd.Float64())) + 1
		j.on(day, "pick %d kg, %d fruit from %s", kilos, fruit, tree)
		j.on(day+1, "sell %d kg fruit of %s to %q at %.2f per kg", kilos-j.between(0, 3), tree, pick(j, buyers), c.kilo)
		day += j.days(4, 9)
	}
}

// month is what is spent and done for the whole nursery.
func (j *journal) month(day fact.Date) {
	j.on(day, "spend %d.%02d on water", j.between(20, 90), j.between(0, 99))
	j.on(day+2, "spend %d.%02d on feed", j.between(15, 70), j.between(0, 99))
	for range j.between(3, 8) {
		day += j.days(2, 5)
		j.on(day, "work %s worker %s %s", pick(j, []string{"weeding", "watering", "spraying", "mending"}), pick(j, j.hands).name, j.hours(15*j.between(2, 24)))
	}
}
