package lsp

import (
	"maps"
	"slices"
	"strings"

	spelling "github.com/budstick/budstick/grammar/name"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/grammar/rule"
	"github.com/budstick/budstick/grammar/syntax"
)

// offerNames offers the names that can stand in a slot.
func (g *gap) offerNames(r *replay, slot slotClass) {
	if slot.made {
		return // the name of something new
	}
	here := g.spotAt(g.start + g.off)
	if slot.of&things != 0 {
		g.things(r.newStock().until(here), here, slot.of)
	}
	for _, list := range g.others(r, slot.of) {
		for _, n := range list.names {
			g.offerName(rankNames, list.kind, n, list.detail)
		}
	}
}

// offerName offers a name as it is written in a journal.
func (g *gap) offerName(rank, kind int, name, detail string) {
	if !strings.Contains(spelling.Fold(name), spelling.Fold(strings.TrimPrefix(g.written, `"`))) {
		return
	}
	if g.names[kind]++; g.names[kind] > mostNames {
		g.list.IsIncomplete = true
		return
	}
	written := syntax.Spell(name)
	if strings.HasPrefix(g.written, `"`) {
		written = syntax.Quote(name)
	}
	g.offer(rank, kind, name, written, detail)
}

// things offers lots, bundles, trees and limbs that are there, with what is on
// hand of them on the day; those of which nothing is left come last.
func (g *gap) things(s *stock, here spot, of class) {
	there := func(t nursery.Thing) bool { return s.above(t.Origin(), here) }
	var gone []*nursery.Lot
	for _, l := range slices.Backward(s.Lots) {
		switch {
		case l.Limbs && of&tops == 0, !l.Limbs && of&lots == 0, !there(l):
		case s.of(l).total() == 0:
			gone = append(gone, l)
		default:
			g.offerName(rankThere, itemVariable, l.Name, join(l.Top.String(), s.left(l)))
		}
	}
	for _, b := range slices.Backward(s.Bundles) {
		if of&bundles != 0 && there(b) {
			rank := rankThere
			if b.Count >= 0 && b.Count <= s.used[b] {
				rank = rankGone
			}
			g.offerName(rank, itemValue, b.Name, join(b.Identity().String(), s.left(b)))
		}
	}
	for _, t := range s.Trees {
		if of&trees != 0 && there(t) && (t.Gone == 0 || !s.above(t.GoneBy, here)) {
			g.offerName(rankThere, itemField, t.Name, join("tree", t.Identity().String(), placeName(t.Place)))
		}
	}
	for _, l := range s.Limbs {
		if of&limbs != 0 && there(l) {
			g.offerName(rankThere, itemField, l.Name, join("limb of "+l.Tree.Name, l.Identity().String()))
		}
	}
	for _, l := range gone {
		g.offerName(rankGone, itemVariable, l.Name, join(l.Top.String(), s.left(l)))
	}
}

// join puts parts of a detail side by side.
func join(parts ...string) string {
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return s == "" }), " · ")
}

func placeName(p *nursery.Place) string {
	if p == nil {
		return ""
	}
	return p.Name
}

// A nameList is names of one class.
type nameList struct {
	names  []string
	kind   int
	detail string
}

// others lists the names of all classes but things.
func (g *gap) others(r *replay, of class) []nameList {
	var out []nameList
	add := func(in class, kind int, detail string, names []string) {
		if of&in != 0 {
			out = append(out, nameList{names, kind, detail})
		}
	}
	add(varieties, itemClass, "variety", namesOf(r.Varieties, func(v *nursery.Variety) string { return v.Name }))
	add(places, itemFolder, "place", namesOf(r.Places, func(p *nursery.Place) string { return p.Name }))
	add(workers, itemField, "worker", namesOf(r.Workers, func(w *nursery.Worker) string { return w.Name }))
	add(parties, itemField, "party", namesOf(r.Parties, func(p *nursery.Party) string { return p.Name }))
	add(methods, itemField, "method", namesOf(r.Methods, func(m *nursery.Method) string { return m.Name }))
	add(methods, itemField, "method of the trade", r.otherMethods())
	add(causes, itemField, "cause", namesOf(r.Causes, func(c *nursery.Cause) string { return c.Name }))
	add(rules, itemField, "rule", silenceable())
	add(limits, itemField, "limit", slices.Sorted(maps.Keys(nursery.KnownLimits())))
	for _, l := range undeclared {
		if of&l.of != 0 {
			add(l.of, itemField, l.word, g.labels(l.of))
		}
	}
	return out
}

// undeclared are the classes of names that are declared nowhere.
var undeclared = []struct {
	of   class
	word string
}{
	{items, "item"}, {tasks, "task"}, {tags, "tag"}, {stores, "store"}, {hormones, "hormone"}, {containers, "pot"}, {papers, "paper"},
	{products, "product"}, {certificates, "certificate"}, {species, "species"},
}

// otherMethods are the trade's methods of grafting that the journal has not used.
func (r *replay) otherMethods() []string {
	var out []string
	for _, m := range nursery.TradeMethods() {
		if _, used := r.Method(m.Name); !used {
			out = append(out, m.Name)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

func namesOf[T any](list []T, name func(T) string) []string {
	out := make([]string, len(list))
	for i, one := range list {
		out[i] = name(one)
	}
	return out
}

// silenceable are the rules that can be allowed.
func silenceable() []string {
	var out []string
	for _, r := range rule.All {
		if r.Silenceable() {
			out = append(out, r.Name)
		}
	}
	return out
}

// labels are the names of a class as they stand in the journal, the latest
// first.
func (g *gap) labels(of class) []string {
	var out []string
	seen := map[string]bool{}
	for _, f := range slices.Backward(g.journal.files) {
		for _, b := range slices.Backward(f.blocks) {
			for _, m := range slices.Backward(b.names()) {
				if m.of&of != 0 && !seen[m.key] {
					seen[m.key] = true
					name, _ := unquoted(b.file.Text(m.span))
					out = append(out, name)
				}
			}
		}
	}
	return out
}
