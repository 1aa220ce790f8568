package report

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/stat"
	"github.com/budstick/budstick/report/table"
)

// like is what makes attempts alike enough to compare, on one farm and between
// two, whose mothers have nothing in common.
func (d *takeDiff) like() []string {
	if d.a.n != d.b.n {
		return []string{"variety", "method", "stock"}
	}
	return []string{"mother", "method", "stock"}
}

// split says how much of the change comes from other work (other mothers,
// methods and stocks) and how much from like work that came out otherwise; ok is
// false where one side is not known.
func (d *takeDiff) split() (f table.Facts, ok bool) {
	strata := map[string]*[2]stat.Tally{}
	for i, s := range []side{d.a, d.b} {
		for _, b := range d.batches[i] {
			var r ripened
			r.add(b, d.age, s.options.AsAt)
			if r.pool.N == 0 {
				continue
			}
			key := d.stratum(s.n, b)
			if strata[key] == nil {
				strata[key] = &[2]stat.Tally{}
			}
			strata[key][i].X += r.pool.X
			strata[key][i].N += r.pool.N
		}
	}
	var a, b []stat.Tally
	shared, all := 0, 0
	for _, key := range slices.Sorted(maps.Keys(strata)) {
		t := strata[key]
		a, b = append(a, t[0]), append(b, t[1])
		all += t[0].N + t[1].N
		if t[0].N > 0 && t[1].N > 0 {
			shared += t[0].N + t[1].N
		}
	}
	s, ok := stat.Standardise(a, b)
	if !ok {
		return table.Facts{}, false
	}
	kinds := listed(d.like())
	d.origin = fmt.Sprintf("Of these, %s come from other work (%s) and %s from like work that came out otherwise.", signed(s.Mix), kinds, signed(s.Rate))
	if 2*shared < all {
		part := "None"
		if shared > 0 {
			part = "Only " + percent(float64(shared)/float64(all))
		}
		d.origin += fmt.Sprintf(" %s of the work is of kinds that both did; what one did alone counts as other work.", part)
	}
	return table.Facts{Name: "split", Title: "Where the change comes from", Items: []table.Fact{
		{Name: "rate_a", Heading: d.a.name, Value: table.Rate(s.RateA)},
		{Name: "rate_b", Heading: d.b.name, Value: table.Rate(s.RateB)},
		{Name: "difference", Unit: "points", Value: table.Change(s.RateB - s.RateA)},
		{Name: "mix", Heading: fmt.Sprintf("of it, from other work (%s)", kinds), Unit: "points", Value: table.Change(s.Mix)},
		{Name: "work", Heading: "of it, from like work that came out otherwise", Unit: "points", Value: table.Change(s.Rate)},
		{Name: "a_with_mix_of_b", Heading: fmt.Sprintf("%s, had it done the work of %s", d.a.name, d.b.name), Value: table.Rate(s.AWithMixOfB)},
		{Name: "b_with_mix_of_a", Heading: fmt.Sprintf("%s, had it done the work of %s", d.b.name, d.a.name), Value: table.Rate(s.BWithMixOfA)},
		{Name: "shared", Heading: "work of kinds that both did", Value: ratio(shared, all)},
	}}, true
}

func (d *takeDiff) stratum(n *nursery.Nursery, b *nursery.Batch) string {
	var values []string
	for _, name := range d.like() {
		value := dimensionNamed(name).of(n, b)
		if name == "mother" {
			value = wholeTree(n, value)
		}
		values = append(values, value)
	}
	return strings.Join(values, "\x00")
}
