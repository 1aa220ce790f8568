package report

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

// A loss is plants that went by one act, to one cause, at one stage.
type loss struct {
	how, cause string
	stage      stage
}

// A stage is how far plants had come.
type stage uint8

// The stages, in order.
const (
	sown stage = iota
	unrooted
	waitingGraft
	attachedStage
	plain // plants without a graft on them: seedlings, liners, what rooted
	grown // living grafts
	failedStage
)

var stageNames = [...]string{
	sown: "seed", unrooted: "unrooted", waitingGraft: "graft not yet seen", attachedStage: "on the mother",
	plain: "plant on its own roots", grown: "grafted tree", failedStage: "stock that failed",
}

func (s stage) String() string { return stageNames[s] }

// stageOf is the stage of plants of a lot in a state.
func stageOf(l *nursery.Lot, s fact.State) stage {
	switch {
	case s == fact.Failed:
		return failedStage
	case s == fact.Attached:
		return attachedStage
	case s == fact.Waiting && l.Seed():
		return sown
	case s == fact.Waiting && !l.Grafted():
		return unrooted
	case s == fact.Waiting:
		return waitingGraft
	case l.Grafted():
		return grown
	}
	return plain
}

// lostIn counts the plants that died, were culled or went missing in a period.
func lostIn(n *nursery.Nursery, p Period) map[loss]int {
	count := map[loss]int{}
	for i := range n.Moves {
		m := &n.Moves[i]
		how, cause := lossOf(m)
		if how != "" && !m.From.Limbs && p.Contains(m.Entry.Date) {
			count[loss{how, cause, stageOf(m.From, m.FromState)}] += int(m.N)
		}
	}
	maps.DeleteFunc(count, func(_ loss, plants int) bool { return plants == 0 })
	return count
}

func compareLosses(a, b loss) int {
	return cmp.Or(cmp.Compare(a.how, b.how), cmp.Compare(a.cause, b.cause), cmp.Compare(a.stage, b.stage))
}

// lossChapter is the chapter of what was lost: by cause, and by stage.
func lossChapter(o Options, count map[loss]int) table.Doc {
	doc := table.Doc{Name: "losses", Title: "What was lost", AsAt: o.AsAt.String(), Period: o.Period().Table(), Basis: table.Calendar}
	if len(count) == 0 {
		doc.Notes = []string{"Nothing was lost, culled or found missing."}
		return doc
	}
	t := table.Table{Name: "rows", Title: "By act, cause and stage", Columns: []table.Column{
		{Name: "how", Kind: table.KindText, Group: true},
		{Name: "cause", Kind: table.KindText, Group: true},
		{Name: "stage", Kind: table.KindText, Group: true},
		{Name: "plants", Kind: table.KindCount},
	}}
	total := 0
	for _, k := range slices.SortedFunc(maps.Keys(count), compareLosses) {
		t.Add(table.Text(k.how), textOrUnknown(k.cause), table.Text(k.stage.String()), table.Count(count[k]))
		total += count[k]
	}
	if len(count) > 1 {
		t.Total = []table.Cell{table.Text("all"), table.Unknown(), table.Unknown(), table.Count(total)}
	}
	doc.Body = []table.Block{stageTable(count), t}
	if bars := lossBars(count); len(bars.Rows) > 1 {
		doc.Body = slices.Insert(doc.Body, 0, table.Block(bars))
	}
	doc.Notes = []string{"Seed and cuttings that were found dead at a check are among them; a graft that failed while its stock lives is not."}
	return doc
}

// stageTable adds the losses up by how far the plants had come.
func stageTable(count map[loss]int) table.Table {
	t := table.Table{Name: "stages", Title: "By stage", Columns: []table.Column{
		{Name: "stage", Kind: table.KindText, Group: true},
		{Name: "died", Kind: table.KindCount},
		{Name: "culled", Kind: table.KindCount},
		{Name: "missing", Kind: table.KindCount},
	}}
	var sums [len(stageNames)][3]int
	for k, plants := range count {
		switch k.how {
		case "culled":
			sums[k.stage][1] += plants
		case "missing at a stocktake":
			sums[k.stage][2] += plants
		default:
			sums[k.stage][0] += plants
		}
	}
	for s, sum := range sums {
		if sum != [3]int{} {
			t.Add(table.Text(stage(s).String()), table.Count(sum[0]), table.Count(sum[1]), table.Count(sum[2]))
		}
	}
	return t
}

// lossBars draws the losses by cause, the greatest first.
func lossBars(count map[loss]int) table.Bars {
	of := map[string]int{}
	for k, plants := range count {
		of[cmp.Or(k.cause, k.how)] += plants
	}
	bars := table.Bars{Title: "Lost, by cause", Desc: "Plants lost to each cause, or by each act where no cause is written.", Axis: "plants"}
	names := slices.SortedFunc(maps.Keys(of), func(a, b string) int { return cmp.Or(cmp.Compare(of[b], of[a]), cmp.Compare(a, b)) })
	for _, name := range names {
		if of[name] > 0 && len(bars.Rows) < mostRivals {
			bars.Rows = append(bars.Rows, table.Bar{Label: name, Value: table.Count(of[name])})
		}
	}
	if len(bars.Rows) == mostRivals && len(names) > mostRivals {
		bars.Desc += fmt.Sprintf(" Of %d these are the greatest; the table has all.", len(names))
	}
	return bars
}

// lossOf says how a move was a loss, and to what: nothing for one that was
// none.
func lossOf(m *nursery.Move) (how, cause string) {
	if m.To != nil {
		return "", ""
	}
	switch f := m.Entry.Effect.(type) {
	case *fact.Check:
		return "dead at the check", deadCause(f)
	case *fact.Leave:
		switch f.How {
		case fact.Lost:
			return "lost", f.To.Text
		case fact.Culled:
			return "culled", f.Why.Text
		}
	case *fact.Stocktake:
		return "missing at a stocktake", ""
	}
	return "", ""
}

// deadCause is the cause that a check gives for its dead, if it gives one.
func deadCause(f *fact.Check) string {
	for _, o := range f.Outcomes {
		if o.Verdict == fact.Dead && o.Cause.Given() {
			return o.Cause.Text
		}
	}
	return ""
}
