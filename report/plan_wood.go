package report

import (
	"cmp"
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

// spareWood is how many hundredths of the scions are cut to spare: common
// practice, 10 to 20, no source.
const spareWood = 15

// A giver is a plant that wood of the variety can be cut from.
type giver struct {
	name    string
	tree    *nursery.Tree
	safe    int // scions that her age allows in a season; -1 where her age is not known
	scions  int // to cut
	unsound string
}

// givers are the standing trees, limbs and tops of the variety. Nothing is cut
// of those with a mark against them, or that came of one by cloning.
func (w *way) givers(day fact.Date) []giver {
	doubts := w.doubtful(day)
	var list []giver
	add := func(t nursery.Thing, tree *nursery.Tree) {
		g := giver{name: t.Label(), tree: tree, safe: w.safeLoad(tree, day), unsound: doubts[t]}
		if g.unsound == "" {
			g.unsound = doubts[tree]
		}
		list = append(list, g)
	}
	for _, t := range w.n.Trees {
		if !t.Standing() || t.State != fact.Living {
			continue
		}
		if t.Variety == w.variety && !t.Seedling && len(t.Limbs) == 0 {
			add(t, t)
		}
		for _, l := range t.Limbs {
			if l.Variety == w.variety && !l.Identity().Seedling {
				add(l, t)
			}
		}
		for _, top := range t.Tops {
			if top.Top == (nursery.Identity{Variety: w.variety}) && top.On[fact.Living] > 0 {
				add(top, t)
			}
		}
	}
	slices.SortStableFunc(list, func(a, b giver) int { return naturally(a.name, b.name) })
	return list
}

// doubtful is what is against wood of a thing on a day: its own mark, or that of
// one that it is a clone of.
func (w *way) doubtful(day fact.Date) map[nursery.Thing]string {
	doubts := map[nursery.Thing]string{}
	var clones *nursery.Descent
	for t := range w.n.All() {
		for _, word := range []string{"sick", "off-type"} {
			if _, marked := nursery.Marked(marksOf(t), word, day); !marked {
				continue
			}
			if clones == nil {
				clones = w.n.Genotypes()
			}
			for _, s := range clones.Down(0, nursery.Source{Thing: t}).Sources {
				if s.Thing != nil && doubts[s.Thing] == "" {
					doubts[s.Thing] = "from " + t.Label() + ", " + word
				}
			}
			doubts[t] = word
		}
	}
	return doubts
}

// marksOf are the marks on a thing.
func marksOf(t nursery.Thing) []nursery.Mark {
	switch t := t.(type) {
	case *nursery.Tree:
		return t.Marks
	case *nursery.Limb:
		return t.Marks
	case *nursery.Lot:
		return t.Marks
	}
	return nil
}

// safeLoad is how many scions a tree gives in a season without going back.
func (w *way) safeLoad(t *nursery.Tree, day fact.Date) int {
	perYear, ok := w.n.Limit("mother-cut", day, w.variety.Name, w.variety.Species)
	if !ok || t.Planted.First == 0 {
		return -1
	}
	return int(perYear.Value * float64(max(1, (day-t.Planted.First)/365)))
}

// shareOut shares scions among the givers by what each may give, a tree with
// several limbs once, and returns those that nobody can give. What the ages
// don't allow falls to trees whose age is not known, in equal parts.
func shareOut(list []giver, scions int) (short int) {
	loads := map[*nursery.Tree]int{}
	total, ageless := 0, 0
	for _, g := range list {
		switch {
		case g.unsound != "":
		case g.safe < 0:
			ageless++
		case loads[g.tree] == 0:
			loads[g.tree] = g.safe
			total += g.safe
		}
	}
	left := scions
	wanted := min(scions, total)
	given := map[*nursery.Tree]bool{}
	order := slices.Clone(list)
	slices.SortStableFunc(order, func(a, b giver) int { return cmp.Compare(b.safe, a.safe) })
	for _, g := range order {
		i := slices.IndexFunc(list, func(x giver) bool { return x.name == g.name })
		if g.unsound != "" || g.safe < 0 || given[g.tree] {
			continue
		}
		given[g.tree] = true
		list[i].scions = min((wanted*g.safe+total-1)/total, left, wanted)
		left -= list[i].scions
	}
	for i := range list {
		if list[i].unsound == "" && list[i].safe < 0 {
			list[i].scions = (left + ageless - 1) / ageless
			left -= list[i].scions
			ageless--
		}
	}
	return left
}

// scionsFor is how many scions are cut for so many stocks.
func (w *way) scionsFor(stocks int, failing float64) int {
	var scions, made int64
	w.own(func(b *nursery.Batch) {
		scions += int64(max(b.ScionsEach, 1)) * int64(b.Made)
		made += int64(b.Made)
	})
	each := 1.0
	if made > 0 {
		each = float64(scions) / float64(made)
	}
	return ceil(float64(stocks) * each * (1 + failing*w.workedAgain()) * (1 + spareWood/100.0))
}

// budsOnSticks is how many scions a stick gave here; ok is false where wood is
// not cut as sticks.
func (w *way) budsOnSticks() (buds int32, ok bool) {
	for _, b := range w.n.Bundles {
		if f, cut := b.Made.Effect.(*fact.Cut); cut && f.Noun == fact.Sticks && f.Buds.Given && b.Variety == w.variety {
			buds = f.Buds.N // of the last
		}
	}
	return buds, buds > 0
}

// motherTable shows what to cut from which plant.
func motherTable(list []giver) table.Table {
	t := table.Table{Name: "mothers", Title: "Wood, by mother", Columns: []table.Column{
		{Name: "mother", Kind: table.KindText, Group: true},
		{Name: "scions", Heading: "scions to cut", Kind: table.KindCount},
		{Name: "safe", Heading: "safe in a season", Kind: table.KindCount},
		{Name: "mark", Kind: table.KindText, Spare: 1},
	}}
	for _, g := range list {
		safe := table.Unknown()
		if g.safe >= 0 {
			safe = table.Count(g.safe)
		}
		t.Add(table.Text(g.name), table.Count(g.scions), safe, textOrUnknown(g.unsound))
	}
	return t
}
