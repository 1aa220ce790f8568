package report

import (
	"slices"

	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/stat"
	"github.com/budstick/budstick/report/table"
)

// unions is the table of interstocks set in one step: the lower union, the
// upper one, and trees, which need both.
func (t *takeTable) unions() table.Table {
	tab := t.ofGroups("unions", "Interstocks", []table.Column{{Name: "union", Kind: table.KindText}}, counts("known", "known", "took", "took"), rateColumns("", "take"))
	for _, g := range t.groups {
		var lower, upper, trees stat.Tally
		var lowerLots, upperLots, treeLots []stat.Tally
		for _, b := range g.batches {
			if len(b.Lot.Inter) == 0 {
				continue
			}
			// Where the lower union failed, nothing is known of the upper one.
			add(&lower, &lowerLots, b.Took+b.Upper, b.Took+b.Upper+b.Lower)
			add(&upper, &upperLots, b.Took, b.Took+b.Upper)
			add(&trees, &treeLots, b.Took, b.Known())
		}
		if trees.N == 0 {
			continue
		}
		row := func(what string, of stat.Tally, lots []stat.Tally) {
			cells := append(g.cells(), table.Text(what), table.Count(of.N), table.Count(of.X))
			tab.Add(append(cells, rateCells(of, t.between, lots)...)...)
		}
		row("lower", lower, lowerLots)
		row("upper", upper, upperLots)
		row("both", trees, treeLots)
	}
	tab.Notes = []string{"A union is known where the check says which one failed: check IT26: 5 took, 1 upper, 2 lower. A tree needs both."}
	return tab
}

// limbs is the table of topworked trees: by limb, and by tree.
func (t *takeTable) limbs(n *nursery.Nursery) table.Table {
	tab := t.ofGroups("limbs", "Limbs of standing trees", counts("known", "limbs", "took", "took"), rateColumns("limb_", "by limb"),
		counts("trees", "trees", "trees_known", "known", "changed", "changed"), rateColumns("tree_", "by tree"))
	tops := topsOf(n)
	for _, g := range t.groups {
		var limbs, trees stat.Tally
		var lots, each []stat.Tally
		var all []*nursery.Tree
		for _, b := range g.batches {
			if !b.Limbs {
				continue
			}
			add(&limbs, &lots, b.Took, b.Known())
			if tree := b.Lot.Mother; !slices.Contains(all, tree) {
				all = append(all, tree)
				top := tops[tree]
				switch {
				case top.beside || top.unknown > 0:
				case top.alive == top.limbs:
					add(&trees, &each, 1, 1)
				default:
					add(&trees, &each, 0, 1)
				}
			}
		}
		if len(all) == 0 {
			continue
		}
		tab.Add(slices.Concat(g.cells(),
			[]table.Cell{table.Count(limbs.N), table.Count(limbs.X)}, rateCells(limbs, t.between, lots),
			[]table.Cell{table.Count(len(all)), table.Count(trees.N), table.Count(trees.X)}, rateCells(trees, t.between, nil))...)
	}
	tab.Notes = []string{"A tree is changed when every limb worked on it carries a living top, by the first attempt or a later one. Trees that keep their old top (beside) are not asked."}
	return tab
}

// A topworked is what became of the limbs of one tree, in all attempts.
type topworked struct {
	limbs, alive, unknown int32
	beside                bool // the old top was left on purpose
}

func topsOf(n *nursery.Nursery) map[*nursery.Tree]topworked {
	tops := map[*nursery.Tree]topworked{}
	for _, b := range n.Batches {
		if !b.Limbs {
			continue
		}
		top := tops[b.Lot.Mother]
		if b.Ordinal == 1 {
			top.limbs += b.Made
		}
		top.alive += b.Took - b.Late
		top.unknown += b.Waiting() + b.Left
		top.beside = top.beside || b.Lot.Beside
		tops[b.Lot.Mother] = top
	}
	return tops
}
