package report

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

var attemptsExport = &Export{
	Name: "attempts", Summary: "stocks worked, layers set, cuttings stuck and seeds sown, with what became of them", Key: []string{"entry"},
	columns: []exportColumn{
		{"entry", table.KindText, "the entry that made them"},
		{"lot", table.KindText, "the lot that it made"},
		{"kind", table.KindText, "graft, layer, cutting or seed"},
		{"made_on", table.KindDate, "when"},
		{"season", table.KindCount, "the year that names the season"},
		{"variety", table.KindText, "of the top"},
		{"seedling", table.KindCount, "1 where it is a seedling of that variety, else 0"},
		{"stock", table.KindText, "what was worked, of grafts"},
		{"mother", table.KindText, "the tree the wood came from; several joined by +"},
		{"by_method", table.KindText, "the method"},
		{"worker", table.KindText, "who; several joined by +"},
		{"place", table.KindText, "where"},
		{"ordinal", table.KindCount, "1 for the first attempt on a stock"},
		{"limbs", table.KindCount, "1 where limbs of a standing tree were worked, else 0"},
		{"made", table.KindCount, "attempts: the sum of took, failed, went and waiting"},
		{"took", table.KindCount, "took, rooted or came up"},
		{"failed", table.KindCount, "failed, the dead among them"},
		{"dead", table.KindCount, "of the failed: the stock, layer or cutting died too"},
		{"went", table.KindCount, "left while waiting"},
		{"waiting", table.KindCount, "not known yet"},
		{"late", table.KindCount, "of those that took: failed later"},
		{"plants", table.KindCount, "of seed: plants that came up"},
	},
	rows: func(n *nursery.Nursery, yield func([]table.Cell)) {
		for _, b := range n.Batches {
			stock := table.Unknown()
			if b.Kind == nursery.GraftBatch {
				stock = table.Text(b.Stock.String())
			}
			method := table.Unknown()
			if b.Method != nil {
				method = table.Text(b.Method.Name)
			}
			yield([]table.Cell{
				table.Text(entryID(b.Entry)), table.Text(b.Lot.Name), table.Text(b.Kind.String()), dateOrUnknown(b.Day),
				table.Count(fact.SeasonOf(b.Day, n.SeasonFrom()).Year()), varietyCell(b.Top), bit(b.Top.Seedling), stock,
				textOrUnknown(motherOf(n, b)), method, textOrUnknown(b.Crew()), textOrUnknown(placeOf(n, b)),
				table.Count(b.Ordinal), bit(b.Limbs), table.Count(b.Made), table.Count(b.Took), table.Count(b.Failed), table.Count(b.Dead),
				table.Count(b.Left), table.Count(b.Waiting()), table.Count(b.Late), table.Count(b.Plants),
			})
		}
	},
}

var movesExport = &Export{
	Name: "moves", Summary: "plants changing state, lot or owner: added up in order they give every count", Key: []string{"move"},
	columns: []exportColumn{
		{"move", table.KindCount, "counts up"},
		{"entry", table.KindText, "by which entry"},
		{"dated", table.KindDate, "the day it counts"},
		{"happened", table.KindDate, "the day it happened"},
		{"how", table.KindText, "the act"},
		{"cause", table.KindText, "of a loss or a cull, where one is given"},
		{"lot_from", table.KindText, "out of this lot; unknown for what came in"},
		{"state_from", table.KindText, "out of this state"},
		{"lot_to", table.KindText, "into this lot; unknown for what went out"},
		{"state_to", table.KindText, "into this state"},
		{"plants", table.KindCount, "how many; below zero for what a stocktake found over"},
	},
	rows: func(n *nursery.Nursery, yield func([]table.Cell)) {
		for i := range n.Moves {
			m := &n.Moves[i]
			_, cause := lossOf(m)
			yield([]table.Cell{
				table.Count(i + 1), table.Text(entryID(m.Entry)), dateOrUnknown(m.Entry.Date), dateOrUnknown(m.Entry.Day()),
				table.Text(m.How.String()), textOrUnknown(cause),
				lotCell(m.From), textOrUnknown(m.FromState.String()), lotCell(m.To), textOrUnknown(m.ToState.String()), table.Count(m.N),
			})
		}
	},
}

func lotCell(l *nursery.Lot) table.Cell {
	if l == nil {
		return table.Unknown()
	}
	return table.Text(l.Name)
}
