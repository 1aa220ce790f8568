package lsp

import (
	"fmt"
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
)

// A page gathers what is told of something, a line at a time.
type page []string

func (p *page) add(parts ...string) {
	if line := join(parts...); line != "" {
		*p = append(*p, line)
	}
}

func (p *page) addf(format string, args ...any) { p.add(fmt.Sprintf(format, args...)) }

func (p page) String() string { return strings.Join(p, "\n\n") }

// describe tells of a target what is known of it at a spot, or nothing.
func (r *replay) describe(t target, here spot) string {
	switch t.in {
	case things:
		return r.describeThing(r.thing(t), here)
	case varieties:
		if v, ok := r.Variety(t.key); ok {
			return r.describeVariety(v)
		}
	case places:
		if p, ok := r.Place(t.key); ok {
			return r.describePlace(p, here)
		}
	case workers:
		if w, ok := r.Worker(t.key); ok {
			return r.describeWorker(w, here)
		}
	case parties:
		if p, ok := r.Party(t.key); ok {
			kind := ""
			if p.Fact != nil {
				kind = p.Fact.As.Text
			}
			return page{title(p.Name, join("party", escaped(kind)))}.String()
		}
	case methods:
		if m, ok := r.Method(t.key); ok {
			return r.describeMethod(m, here)
		}
	case causes:
		if c, ok := r.Cause(t.key); ok {
			return page{title(c.Name, "cause of loss")}.String()
		}
	}
	return ""
}

// counted writes a number with what it counts.
func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

func title(name, kind string) string { return "**" + escaped(name) + "**: " + kind }

func (r *replay) describeThing(t nursery.Thing, here spot) string {
	s := r.newStock().until(here)
	switch t := t.(type) {
	case *nursery.Lot:
		return s.describeLot(t, here)
	case *nursery.Bundle:
		return s.describeBundle(t, here)
	case *nursery.Tree:
		return r.describeTree(t, here)
	case *nursery.Limb:
		p := page{title(t.Name, "limb of "+escaped(t.Tree.Name))}
		p.add(escaped(t.Identity().String()))
		p.add(marksOn(t.Marks, here.day))
		return p.String()
	}
	return ""
}

// describeLot tells what is known of a lot: what it is, how old, what stands of
// it at the spot and, where that differs, at the end of the journal.
func (s *stock) describeLot(l *nursery.Lot, here spot) string {
	p := page{title(l.Name, kindWord(l))}
	p.add(escaped(onStock(l.Top, l.Below)), mixed(l.MixedBelow))
	p.add(l.How.String()+" "+l.Day.Long(), age(l.Day, here))
	if line := s.line(l); line != "" {
		p.add("comes from " + line)
	}
	if l.Grafted() {
		p.add(sourcesOf("stocks from ", l.Roots))
	}
	p.add("here: " + s.left(l))
	if end := tally(l.On); end != *s.of(l) {
		p.add("at the end of the journal: " + end.String())
	}
	where := l.SpotOn(here.day)
	p.add(escaped(placeName(where.Place)), escaped(where.Pot.String()))
	if b := l.Batch; b != nil && b.Lot == l {
		p.add(attempts(b))
	}
	p.add(marksOn(l.Marks, here.day))
	return p.String()
}

// attempts is how the attempts of a batch went, to the end of the journal.
func attempts(b *nursery.Batch) string {
	good := map[nursery.BatchKind]string{
		nursery.GraftBatch: "took", nursery.LayerBatch: "rooted", nursery.CuttingBatch: "rooted", nursery.SeedBatch: "up",
	}[b.Kind]
	return fmt.Sprintf("of %d made %d %s, %d failed, %d wait", b.Made, b.Took, good, b.Failed, b.Waiting())
}

func onStock(top nursery.Identity, below []nursery.Identity) string {
	out := top.String()
	for _, id := range below {
		out += " on " + id.String()
	}
	return out
}

func mixed(is bool) string {
	if is {
		return "stocks of several kinds"
	}
	return ""
}

// age says how old something is on the day of a spot.
func age(since fact.Date, here spot) string {
	if here.day == 0 || since == 0 || here.day < since {
		return ""
	}
	if n := here.day - since; n != 1 {
		return fmt.Sprintf("%d days old", n)
	}
	return "1 day old"
}

func sourcesOf(say string, list []nursery.Source) string {
	var names []string
	for _, s := range list {
		names = append(names, escaped(s.Label()))
	}
	if len(names) == 0 {
		return ""
	}
	return say + strings.Join(names, " or ")
}

// marksOn says which marks stand on a day.
func marksOn(list []nursery.Mark, day fact.Date) string {
	var out []string
	for _, m := range list {
		if stands, ok := nursery.Marked(list, m.Word, day); ok && stands == m {
			out = append(out, fmt.Sprintf("marked %s since %s", m.Word, m.Day.Long()))
		}
	}
	return strings.Join(out, " · ")
}

func (s *stock) describeBundle(b *nursery.Bundle, here spot) string {
	p := page{title(b.Name, kindWord(b))}
	p.add(escaped(b.Identity().String()), sourcesOf("from ", b.From))
	p.add(b.Day.Long(), age(b.Day, here), escaped(b.Store))
	p.add("here: " + s.leftOf(b))
	return p.String()
}

// mostSteps is how far a line of descent is followed.
const mostSteps = 8

// describeTree tells what is known of a tree, and the line it comes from.
func (r *replay) describeTree(t *nursery.Tree, here spot) string {
	p := page{title(t.Name, "tree")}
	p.add(escaped(onStock(t.Identity(), t.On)), escaped(placeName(t.Place)))
	if t.Planted.First != 0 {
		p.add("planted " + whenOf(t.Planted))
	}
	if t.Gone != 0 {
		p.addf("%s %s", t.Gone, t.GoneDay.Long())
	}
	if line := r.line(t); line != "" {
		p.add("comes from " + line)
	}
	if len(t.Tops) > 0 {
		p.add("carries " + counted(len(t.Tops), "lot") + " of worked limbs")
	}
	if t.Wood > 0 {
		p.add("gave " + counted(int(t.Wood), "scion"))
	}
	p.add(marksOn(t.Marks, here.day))
	return p.String()
}

// line is what the top of a thing comes from, step by step.
func (r *replay) line(t nursery.Thing) string {
	var parts []string
	for t != nil && len(parts) < mostSteps {
		links := r.Tops(t)
		if len(links) == 0 {
			break
		}
		labels := make([]string, len(links))
		for i, l := range links {
			labels[i] = escaped(l.From.Label())
		}
		parts = append(parts, fmt.Sprintf("%s (%s)", strings.Join(labels, " or "), links[0].Step))
		if t = links[0].From.Thing; len(links) > 1 {
			break
		}
	}
	return strings.Join(parts, " ← ")
}

// whenOf writes a date as closely as it is known.
func whenOf(w fact.When) string {
	y, m, _ := w.First.Civil()
	switch {
	case w.Exact():
		return w.First.Long()
	case w.Last-w.First < 31:
		return fmt.Sprintf("%s %d", m, y)
	}
	return fmt.Sprint(y)
}

func (r *replay) describeVariety(v *nursery.Variety) string {
	p := page{title(v.Name, "variety")}
	p.add(escaped(v.Species), map[fact.Embryony]string{fact.Monoembryonic: "monoembryonic seed", fact.Polyembryonic: "polyembryonic seed"}[v.Embryony])
	switch {
	case v.SportOf != nil:
		p.add("sport of " + escaped(v.SportOf.Name))
	case v.SeedParent != nil || v.Pollen != nil:
		p.addf("%s × %s", parentName(v.SeedParent), parentName(v.Pollen))
	}
	if f := v.Fact; f.Protected != 0 {
		p.add("protected until "+f.Protected.Long(), escaped(f.Right.Text))
	}
	standing := 0
	for _, t := range r.Trees {
		if t.Variety == v && t.Standing() {
			standing++
		}
	}
	plants := 0
	for _, l := range r.Lots {
		if l.Top.Variety == v && !l.Limbs {
			plants += int(l.Plants())
		}
	}
	p.addf("at the end of the journal: %s standing, %s in lots", counted(standing, "tree"), counted(plants, "plant"))
	return p.String()
}

func parentName(v *nursery.Variety) string {
	if v == nil {
		return "unknown"
	}
	return escaped(v.Name)
}

func (r *replay) describePlace(pl *nursery.Place, here spot) string {
	p := page{title(pl.Name, "place")}
	if f := pl.Fact; f != nil && f.Area.Given {
		p.addf("%s %s", f.Area.Value, f.Area.Unit)
	}
	s := r.newStock().until(here)
	lots, plants := 0, 0
	for _, l := range r.Lots {
		if n := s.of(l).total(); n > 0 && l.SpotOn(here.day).Place == pl {
			lots, plants = lots+1, plants+int(n)
		}
	}
	p.addf("here: %s in %s", counted(plants, "plant"), counted(lots, "lot"))
	return p.String()
}

func (r *replay) describeWorker(w *nursery.Worker, here spot) string {
	p := page{title(w.Name, "worker")}
	for _, e := range w.Wages {
		if f, ok := e.Effect.(*fact.Worker); ok && f.Wage.Given && r.above(e, here) {
			since := ""
			if e.Date != 0 {
				since = "since " + e.Date.Long()
			}
			p.add(strings.TrimSpace(fmt.Sprintf("%s %s", f.Wage.Amount, f.Wage.Currency))+" per "+string(f.Per), since)
		}
	}
	return p.String()
}

func (r *replay) describeMethod(m *nursery.Method, here spot) string {
	p := page{title(m.Name, "method")}
	for _, l := range []struct{ name, say string }{{"first-check", "first looked at after"}, {"stale-check", "should be looked at within"}} {
		if limit, ok := r.Limit(l.name, here.day, m.Name); ok {
			p.add(fmt.Sprintf("%s %s", l.say, limit), limit.Mark)
		}
	}
	return p.String()
}
