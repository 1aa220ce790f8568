package report

import (
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

var descentExport = &Export{
	Name: "descent", Summary: "what came from what, one row a step", Key: []string{"child_kind", "child", "parent_kind", "parent", "step", "turn"},
	columns: []exportColumn{
		{"child_kind", table.KindText, "lot, limbs, tree, limb, wood, seed or variety"},
		{"child", table.KindText, "its name"},
		{"parent_kind", table.KindText, "the same, or party for someone outside the farm"},
		{"parent", table.KindText, "its name"},
		{"step", table.KindText, "by which step: scion, stock, seed, wood, the same plants …"},
		{"turn", table.KindCount, "counts up where the same step was made several times"},
		{"entry", table.KindText, "the entry that made the step; unknown for what was only declared"},
		{"made_on", table.KindDate, "the day of the step; unknown for what was declared before the first day"},
		{"late", table.KindCount, "1 where a standing tree got it, so that what was taken from the tree before has nothing of it; else 0"},
		{"one_of", table.KindCount, "1 where each plant came from one of several such parents, else 0"},
		{"topless", table.KindCount, "1 where the parent's own top was dead or cut off, so that only what it stood on came along; else 0"},
		{"plants", table.KindCount, "plants, scions or seeds; unknown where it was not counted"},
	},
	rows: func(n *nursery.Nursery, yield func([]table.Cell)) {
		for t := range n.All() {
			descentRows(n, of(t), yield)
		}
		for _, v := range n.Varieties {
			descentRows(n, subject{nursery.Source{Variety: v}}, yield)
		}
	},
}

// descentRows are the steps by which a subject came to be.
func descentRows(n *nursery.Nursery, child subject, yield func([]table.Cell)) {
	type step struct {
		from nursery.Source
		step nursery.Step
	}
	turns := map[step]int{}
	for _, link := range n.Parents(child.Source) {
		turns[step{link.From, link.Step}]++
		parent := subject{link.From}
		entry, plants := table.Unknown(), table.Unknown()
		if link.Entry != nil {
			entry = table.Text(entryID(link.Entry))
		}
		if link.Count > 0 {
			plants = table.Count(link.Count)
		}
		yield([]table.Cell{
			table.Text(child.kind()), table.Text(child.Label()), table.Text(parent.kind()), table.Text(parent.Label()),
			table.Text(link.Step.String()), table.Count(turns[step{link.From, link.Step}]), entry, dateOrUnknown(link.Day()),
			bit(link.Late), bit(link.OneOf), bit(link.Topless), plants,
		})
	}
}
