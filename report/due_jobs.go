package report

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
)

// allJobs are the jobs that are still to be done, whenever they are due.
func allJobs(n *nursery.Nursery, o Options) []job {
	var jobs []job
	for _, l := range n.Lots {
		if l.Plants() > 0 && lotPasses(n, l, o.Filters) {
			jobs = append(jobs, jobsOfLot(n, l, o.AsAt)...)
		}
	}
	for _, t := range n.Trees {
		if t.State == fact.Waiting && t.Standing() && treePasses(t, o.Filters) {
			jobs = append(jobs, job{t.Batch.FirstCheck, "check", "check graft", t.Name, t.Made.Day(), 1, t.Place,
				"grafted " + t.Batch.Day.String()})
		}
	}
	return slices.Concat(jobs, licenceJobs(n, o), certificateJobs(n, o))
}

// certificateJobs are about certificates of inspections that run out. One that
// is followed by a later one of the same things is no matter any more.
func certificateJobs(n *nursery.Nursery, o Options) []job {
	if len(o.Filters) > 0 {
		return nil // they are about the farm, whatever is asked for
	}
	var jobs []job
	latest := map[string]int{}
	for i := range n.Visits {
		e := n.Visits[i].Entry
		f, ok := e.Effect.(*fact.Inspect)
		if !ok || f.Until == 0 || !slices.ContainsFunc(n.Visits[i].Things, stillThere) && len(n.Visits[i].Things) > 0 {
			continue
		}
		names := make([]string, len(f.Of))
		for j, name := range f.Of {
			names[j] = name.Text
		}
		of := joined(names)
		what := job{f.Until, "certificate", "certificate ends", of, e.Day(), 0, nil, f.Certificate.Text}
		if at, again := latest[of]; again {
			if f.Until >= jobs[at].day {
				jobs[at] = what
			}
			continue
		}
		latest[of] = len(jobs)
		jobs = append(jobs, what)
	}
	return jobs
}

// stillThere reports whether a thing stands, or anything of it.
func stillThere(t nursery.Thing) bool {
	switch t := t.(type) {
	case *nursery.Lot:
		return t.Plants() > 0
	case *nursery.Tree:
		return t.Standing()
	case *nursery.Limb:
		return t.Tree.Standing()
	}
	return true
}

// tending is the jobs that follow a graft, by the limit that says when.
var tending = []struct {
	job, limit, what, done string
	due                    func(*nursery.Batch) bool // nil means always
}{
	{"rubbed", "rubbed-by", "rub off shoots", "shoots were rubbed off", nil},
	{"headed", "headed-by", "head back", "stocks were headed back", func(b *nursery.Batch) bool { return b.Method.Trade().LeavesTop() }},
	{"ties", "ties-off", "ties off", "ties came off", nil},
}

// jobsOfLot are the jobs that are still to be done on a lot.
func jobsOfLot(n *nursery.Nursery, l *nursery.Lot, today fact.Date) []job {
	var jobs []job
	place := l.Place
	if l.Limbs || place == nil && l.OnMother() {
		place = l.Mother.Place
	}
	add := func(day fact.Date, word, what string, plants int32, why string) {
		jobs = append(jobs, job{day, word, what, l.Name, l.Made.Day(), plants, place, why})
	}
	b := lastBatch(l)
	if b != nil && l.On[fact.Waiting] > 0 {
		day, why := lookDay(b)
		add(day, "check", lookWord[b.Kind], l.On[fact.Waiting], why)
	}
	if b != nil && l.On[fact.Attached] > 0 {
		if limit, ok := n.Limit("sever-age", today, limitKeys(b)...); ok {
			add(b.Day+limit.Days(), "sever", "sever", l.On[fact.Attached], "rooted on "+l.Mother.Name)
		}
	}
	if b != nil && b.Kind == nursery.GraftBatch && l.Grafted() && l.On[fact.Living] > l.Bare {
		for _, t := range tending {
			limit, ok := n.Limit(t.limit, today, limitKeys(b)...)
			if ok && (t.due == nil || t.due(b)) && !l.Tended(t.job) {
				add(b.Day+limit.Days(), t.job, t.what, l.On[fact.Living], limit.String()+" on")
			}
		}
	}
	free := l.Free(fact.AnyState)
	if free == 0 {
		return jobs
	}
	if l.Pot != (nursery.Pot{}) {
		if limit, ok := n.Limit("pot-age", today, identityKeys(l.Top)...); ok {
			add(l.Pot.Since+limit.Days(), "pot", "pot on", free, fmt.Sprintf("%s in %s", limit, l.Pot))
		}
	}
	if last := l.Entries[len(l.Entries)-1].Date; last != 0 {
		if limit, ok := n.Limit("unused-lot", today, identityKeys(l.Top)...); ok {
			add(last+limit.Days(), "count", "count", free, "silent since "+last.String())
		}
	}
	return jobs
}

// lastBatch is the attempts of a lot; of a joined one those made last.
func lastBatch(l *nursery.Lot) *nursery.Batch {
	if l.Batch != nil || len(l.Batches) == 0 {
		return l.Batch
	}
	return slices.MaxFunc(l.Batches, func(a, b *nursery.Batch) int { return cmp.Compare(a.Day, b.Day) })
}

var lookWord = [...]string{
	nursery.GraftBatch: "check grafts", nursery.LayerBatch: "check layers",
	nursery.CuttingBatch: "check cuttings", nursery.SeedBatch: "count seedlings",
}

// lookDay is when what waits of some attempts is to be looked at: on the
// first-check day, or after a check that left some unseen, before it goes stale.
func lookDay(b *nursery.Batch) (fact.Date, string) {
	if b.Kind == nursery.SeedBatch {
		return b.Stale, "sown " + b.Day.String()
	}
	for i := len(b.Checks) - 1; i >= 0; i-- {
		if seen := b.Checks[i].Day(); seen >= b.FirstCheck {
			return max(seen, b.Stale), "unseen " + seen.String()
		}
	}
	return b.FirstCheck, b.Lot.How.String() + " " + b.Day.String()
}

// licenceJobs are about varieties whose propagation is a matter of a licence:
// one of which most is used up, or a right that ends.
func licenceJobs(n *nursery.Nursery, o Options) []job {
	var jobs []job
	made := madeUnderLicence(n)
	for _, v := range n.Varieties {
		f := v.Fact
		if f == nil || f.Protected < o.AsAt || !varietyPasses(v, o.Filters) {
			continue
		}
		add := func(day fact.Date, word, what string, why string) {
			jobs = append(jobs, job{day, word, what, v.Name, v.Made.Day(), made[v], nil, why})
		}
		if f.LicensedN.Given && made[v]*10 >= f.LicensedN.N*mostlyUsed {
			add(o.AsAt, "licence", "ask for more", fmt.Sprintf("%s is for %d", f.Licence.Text, f.LicensedN.N))
		}
		add(f.Protected, "right", "right ends", "ask its holder")
	}
	return jobs
}

// mostlyUsed is how many tenths of a licence are used up when it is time to ask
// for more: common practice, no source.
const mostlyUsed = 8

// madeUnderLicence counts the plants that were made of each protected variety
// while its right held: what took or may yet take. Seedlings are other plants.
func madeUnderLicence(n *nursery.Nursery) map[*nursery.Variety]int32 {
	made := map[*nursery.Variety]int32{}
	for _, b := range n.Batches {
		if v := b.Top.Variety; v != nil && v.Fact != nil && b.Kind != nursery.SeedBatch && b.Day <= v.Fact.Protected {
			made[v] += b.Took + b.Waiting()
		}
	}
	return made
}

// limitKeys are what a limit of attempts may be given for, nearest first.
func limitKeys(b *nursery.Batch) []string {
	if b.Method == nil {
		return identityKeys(b.Top)
	}
	return append([]string{b.Method.Name}, identityKeys(b.Top)...)
}

func identityKeys(id nursery.Identity) []string {
	if id.Variety == nil {
		return nil
	}
	return []string{id.Variety.Name, id.Variety.Species}
}
