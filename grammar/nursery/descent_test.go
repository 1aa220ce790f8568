package nursery

import (
	"slices"
	"testing"

	"github.com/budstick/budstick/grammar/entry"
)

// What is layered on limbs that were worked is a layer of them, and what is layered
// once more is kept.
func TestStepsOfLayers(t *testing.T) {
	n := Replay([]*entry.Page{read("a.bud", `variety Lanternfall species "Diospyros kaki"
variety "Old Copper" species "Diospyros kaki"
tree M7 variety Lanternfall
tree M9 variety "Old Copper"
2025-03-02
graft 3 limbs of M9 with M7 by bark as TW25
2025-04-10
check TW25: 3 took
2026-03-02
layer 4 on TW25 as L26
2026-08-02
check L26: 2 rooted, 2 failed
layer 2 failed of L26 as L26b
`)}, 0)
	for _, f := range n.Findings {
		t.Error(f.Message)
	}
	for name, want := range map[string]Step{"L26": LayerOf, "L26b": Kept} {
		at, _ := n.Thing(name)
		if parents := n.Parents(Source{Thing: at}); len(parents) != 1 || parents[0].Step != want {
			t.Errorf("%s: %+v, want %v", name, parents, want)
		}
	}
}

// M9 is given a second top, of M7. Wood that was cut before does not go back to
// M7, and wood cut afterwards does, in whatever order they are asked about.
func TestUpThroughATreeThatWasWorked(t *testing.T) {
	n := Replay([]*entry.Page{read("a.bud", `variety Lanternfall species "Diospyros kaki"
variety "Old Copper" species "Diospyros kaki"
variety "Lotus 4" species "Diospyros lotus"
tree M7 variety Lanternfall
tree M9 variety "Old Copper" on "Lotus 4"
2026-02-20
buy 40 liners of "Lotus 4" as LB25
cut 20 scions from M9 as W26
2026-03-02
graft 10 of LB25 with W26 by cleft as A26
graft 3 limbs of M9 with M7 by bark as TW26
2026-04-10
check A26: 10 took
check TW26: 3 took
2027-02-20
limb M9/old of M9
cut 20 scions from M9/old as W27
2027-03-02
graft 10 of LB25 with W27 by cleft as A27
`)}, 0)
	for _, f := range n.Findings {
		t.Error(f.Message)
	}
	thing := func(name string) Source {
		at, ok := n.Thing(name)
		if !ok {
			t.Fatalf("no %s", name)
		}
		return Source{Thing: at}
	}
	before, after, mother := thing("A26"), thing("A27"), thing("M7")
	for name, c := range map[string]struct {
		of   []Source
		want bool
	}{
		"before": {[]Source{before}, false}, "after": {[]Source{after}, true},
		"before, after": {[]Source{before, after}, true}, "after, before": {[]Source{after, before}, true},
	} {
		if got := slices.Contains(n.Up(c.of...).Sources, mother); got != c.want {
			t.Errorf("%s: goes back to M7 is %v, want %v", name, got, c.want)
		}
	}
}
