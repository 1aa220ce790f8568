package report

import (
	"maps"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/grammar/source"
)

// ids are the things that a lineage or a trace lists.
func ids(t interface{ Fatal(...any) }, n *nursery.Nursery, r *Report, o Options) map[string]bool {
	doc, err := r.Build(n, o)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]bool{}
	for _, tab := range doc.Tables() {
		if tab.Name == "nodes" {
			for _, row := range tab.Rows {
				out[row[0].Plain()] = true
			}
		}
	}
	return out
}

func everyName(n *nursery.Nursery) (names []string) {
	for thing := range n.All() {
		names = append(names, thing.Label())
	}
	return names
}

// What has X in its lineage is exactly what a trace of X lists.
func TestTraceIsLineageTurnedRound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := replayed(tangled(t))
		upOf := map[string]map[string]bool{}
		for _, y := range everyName(n) {
			upOf[y] = ids(t, n, lineage, Options{Name: y})
		}
		for _, x := range everyName(n) {
			down := ids(t, n, trace, Options{Name: x})
			for y, up := range upOf {
				if down[y] != up[x] {
					t.Errorf("%s in the trace of %s: %v; %s in the lineage of %s: %v", y, x, down[y], x, y, up[x])
				}
			}
		}
	})
}

// The same journals, followed forwards as the days go by: each thing begins
// with all that its sources have met by then, and a tree meets more when its
// limbs are worked or it gets new roots. Nothing is walked here.
func TestLineageIsWhatWasMet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := replayed(tangled(t))
		met := metBy(n)
		for thing := range n.All() {
			got := ids(t, n, lineage, Options{Name: thing.Label()})
			if !maps.Equal(got, met[thing]) {
				t.Errorf("lineage of %s:\n %v\nmet:\n %v", thing.Label(), slices.Sorted(maps.Keys(got)), slices.Sorted(maps.Keys(met[thing])))
			}
		}
	})
}

func metBy(n *nursery.Nursery) map[nursery.Thing]map[string]bool {
	met := map[nursery.Thing]map[string]bool{}
	var add func(to map[string]bool, from nursery.Source)
	add = func(to map[string]bool, from nursery.Source) {
		to[subject{from}.id()] = true
		maps.Copy(to, met[from.Thing])
		if v := from.Variety; v != nil {
			for _, p := range []*nursery.Variety{v.SeedParent, v.Pollen, v.SportOf} {
				if p != nil {
					add(to, nursery.Source{Variety: p})
				}
			}
		}
	}
	for _, e := range n.Entries {
		for thing := range n.All() {
			late := thing.Origin() != e
			if !late {
				met[thing] = map[string]bool{thing.Label(): true}
			}
			for _, l := range n.Parents(nursery.Source{Thing: thing}) {
				if l.Late == late && l.Entry == e && !late {
					add(met[thing], l.From)
				}
			}
		}
		for _, tree := range n.Trees {
			for _, l := range n.Parents(nursery.Source{Thing: tree}) {
				if l.Late && l.Entry == e {
					add(met[tree], l.From)
				}
			}
		}
	}
	return met
}

// kestrelHollow is the example journal, whole.
func kestrelHollow(t testing.TB) *nursery.Nursery {
	t.Helper()
	paths, err := filepath.Glob("../examples/kestrel-hollow/*.bud")
	if err != nil || len(paths) == 0 {
		t.Fatal("no example journal", err)
	}
	var pages []*entry.Page
	for _, path := range paths {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		pages = append(pages, entry.Read(source.New(filepath.Base(path), text)))
	}
	return nursery.Replay(pages, 0)
}

// In a real book too, for parties and varieties as for plants.
func TestTraceIsLineageTurnedRoundInTheExample(t *testing.T) {
	n := kestrelHollow(t)
	d := n.Descent()
	down := map[nursery.Source]map[nursery.Source]bool{}
	var all []nursery.Source
	for thing := range n.All() {
		all = append(all, nursery.Source{Thing: thing})
	}
	for _, v := range n.Varieties {
		all = append(all, nursery.Source{Variety: v})
	}
	parties := 0
	for _, p := range n.Parties {
		all = append(all, nursery.Source{Party: p})
	}
	for _, x := range all {
		down[x] = map[nursery.Source]bool{}
		for _, y := range d.Down(0, x).Sources {
			down[x][y] = true
		}
		if x.Party != nil && len(down[x]) > 1 {
			parties++
		}
	}
	for _, y := range all {
		up := map[nursery.Source]bool{}
		for _, x := range n.Up(y).Sources {
			up[x] = true
		}
		for _, x := range all {
			if down[x][y] != up[x] {
				t.Errorf("%s is in the trace of %s: %v; the other way: %v", y.Label(), x.Label(), down[x][y], up[x])
			}
		}
	}
	if parties < 3 {
		t.Errorf("only %d parties brought anything", parties)
	}
}

// A trace since a day is what the lineage reaches by steps made since.
func TestTraceSince(t *testing.T) {
	n := kestrelHollow(t)
	day, _ := fact.ParseDate("2025-10-01")
	all := ids(t, n, trace, Options{Name: "M7"})
	since := ids(t, n, trace, Options{Name: "M7", Periods: []Period{{First: day}}})
	if len(since) < 5 || len(since) >= len(all) {
		t.Fatalf("%d since, %d in all", len(since), len(all))
	}
	for id := range since {
		thing, ok := n.Thing(id)
		if !ok || id == "M7" {
			continue
		}
		if thing.Origin().Day() < day {
			t.Errorf("%s was made before", id)
		}
	}
	if !since["W7-26"] || since["W7-25"] || !all["W7-25"] {
		t.Errorf("W7-26 %v, W7-25 %v", since["W7-26"], since["W7-25"])
	}
}

// What is of the genotype of X came of X, and bears its name: it is of the same
// variety, or of a sport of it, or a nucellar seedling. A seedling of its own
// kind is none, nor is what stands on X. Where lots on different stocks were
// joined, a stock that is released may be either, and nothing is asked.
func TestClonesBearTheName(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := replayed(tangled(t))
		all, same := n.Descent(), n.Genotypes()
		for x := range n.All() {
			came := all.Down(0, nursery.Source{Thing: x}).Sources
			of := nursery.IdentityOf(x)
			for _, y := range same.Down(0, nursery.Source{Thing: x}).Sources {
				if mixedStocks(n, y) {
					continue
				}
				id := nursery.IdentityOf(y.Thing)
				sport := id.Variety != of.Variety && id.Variety.SportOf == of.Variety
				if id.Variety != of.Variety && !sport || id.Seedling != of.Seedling && !id.Nucellar() && !of.Nucellar() {
					t.Errorf("%s is %s and no clone of %s, which is %s", y.Label(), id, x.Label(), of)
				}
				if !slices.Contains(came, y) {
					t.Errorf("%s is a clone of %s and did not come of it", y.Label(), x.Label())
				}
			}
		}
	})
}

func mixedStocks(n *nursery.Nursery, s nursery.Source) bool {
	return slices.ContainsFunc(n.Up(s).Sources, func(s nursery.Source) bool {
		l, ok := s.Thing.(*nursery.Lot)
		return ok && l.MixedBelow
	})
}
