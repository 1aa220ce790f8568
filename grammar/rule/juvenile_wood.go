package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var juvenileWood = &Rule{
	Name: "juvenile-wood", Severity: finding.Warning,
	Summary: "wood is taken from a seedling that has never borne",
	Why: "Wood of a seedling that is still juvenile makes grafted plants that bear as late as the seedling itself, and nobody has seen yet what its " +
		"fruit is like. Once fruit is picked from the tree, the rule is silent.",
	Bad:  seedlingTree + "2029-03-02\ncut 20 scions from S1 as WS store cool\n",
	Good: seedlingTree + "2029-03-02\ncut 20 scions from M7 as W7 store cool\n",
	check: func(p *pass) {
		bore := map[*nursery.Tree]bool{}
		each(p, func(_ *fact.Entry, f *fact.Pick) {
			for _, name := range f.From {
				if t := nursery.TreeOf(p.thing(name)); t != nil {
					bore[t] = true
				}
			}
		})
		p.takings(func(t taking) {
			young := false
			switch from := t.thing.(type) {
			case *nursery.Tree:
				young = isSeedling(from) && !bore[from]
			case *nursery.Lot:
				young = !from.Limbs && from.Top.Seedling
			}
			if young {
				p.reportf(t.entry, t.name.Span, []string{t.thing.Label()}, "%s is a seedling from which no fruit was ever picked; wood from it bears late, and its fruit is unknown",
					t.thing.Label())
			}
		})
	},
}

// isSeedling reports whether a tree grew from seed, whatever it is called now.
func isSeedling(t *nursery.Tree) bool {
	l, ok := t.From.Thing.(*nursery.Lot)
	return t.Seedling || ok && l.Top.Seedling
}

// seedlingTree is kestrel with a seedling that was planted long ago.
const seedlingTree = kestrel + `variety Seaward parents Amberlight x unknown
sow 30 seed of Amberlight as AS25 from M7
2026-01-20
check AS25: 24 up, 6 dead
plant 1 of AS25 as S1 variety Seaward at terrace-3
mark S1 verified because "leaf and fruit seen"
cull AS25 because "not needed"
cull QB25 because "not needed"
note QB25 "empty"
2027-06-01
note M7 "in bloom"
2028-06-01
note M7 "in bloom"
`
