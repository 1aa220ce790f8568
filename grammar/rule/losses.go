package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

// fewPlants are too few for a share of them to be remarkable.
const fewPlants = 10

// The rules about what is lost.
var (
	lossRule = &Rule{
		Name: "loss", Severity: finding.Warning, Limits: []string{"loss"},
		Summary: "a large part of a lot was lost",
		Why: "Some loss is normal at every stage. Above the limit, a rule of thumb, it is worth asking for one cause: a worker, a bench, a bag of mix. " +
			"Plants that a check found dead, and whole lots that were given up, are not counted here.",
		Bad:  bench + "2026-05-20\nlose 9 of AM26 to rot\ncause rot\n",
		Good: bench + "2026-05-20\nlose 2 of AM26 to rot\ncause rot\n",
		check: func(p *pass) {
			most := p.gauge("loss")
			lost := map[*nursery.Lot]int32{}
			last := map[*nursery.Lot]*fact.Entry{}
			var order []*nursery.Lot
			p.moves(fact.Lost, func(m *nursery.Move) {
				if f, ok := m.Entry.Effect.(*fact.Leave); !ok || !f.Count.Given || f.State == fact.Failed {
					return
				}
				if last[m.From] == nil {
					order = append(order, m.From)
				}
				lost[m.From] += m.N
				last[m.From] = m.Entry
			})
			p.end(func() {
				for _, l := range order {
					e := last[l]
					had := l.Entered - l.Out[fact.Worked] - l.Gone
					limit, ok := most.of(e.Date, l.Top.Variety, nil)
					if ok && had >= fewPlants && float64(lost[l])*100 > limit.Value*float64(had) {
						p.reportf(e, firstLine(e), []string{l.Name}, "%d of the %d plants of %s were lost, more than %s (%s); look for one cause, and note it", lost[l], had, l.Name, limit, limit.Mark)
					}
				}
			})
		},
	}
	lateLoss = &Rule{
		Name: "late-loss", Severity: finding.Warning, Limits: []string{"late-loss"},
		Summary: "many grafts that had taken failed later",
		Why: "Three to ten tops in a hundred die in the months after the check (rule of thumb). Many more mean that the check came too early, the ties came off " +
			"too soon or too late, or stock and scion do not hold.",
		Bad:  bench + "2026-06-20\nfail 12 of AM26\n",
		Good: bench + "2026-06-20\nfail 2 of AM26\n",
		check: func(p *pass) {
			most := p.gauge("late-loss")
			p.batches(func(b *nursery.Batch) {
				if b.Kind != nursery.GraftBatch || b.Late == 0 || b.Took < fewPlants {
					return
				}
				if l, ok := most.of(b.Entry.Date, b.Top.Variety, b.Method); ok && float64(b.Late)*100 > l.Value*float64(b.Took) {
					p.reportf(b.Entry, firstLine(b.Entry), []string{b.Lot.Name}, "%d of the %d grafts of %s that took failed later, more than %s (%s)", b.Late, b.Took, b.Lot.Name, l, l.Mark)
				}
			})
		},
	}
	missingPlants = &Rule{
		Name: "missing", Severity: finding.Warning, Limits: []string{"missing"},
		Summary: "a stocktake accepts that many plants are missing",
		Why:     "One or two are always miscounted. More were sold, moved or thrown out without a word, and that is worth finding out while someone remembers.",
		Bad:     bench + "count AM26 30, 8 missing\n",
		Good:    bench + "count AM26 37, 1 missing\n",
		check: func(p *pass) {
			most := p.gauge("missing")
			each(p, func(e *fact.Entry, f *fact.Stocktake) {
				l := p.lot(f.Lots[0])
				if l == nil || f.Missing.N <= 2 {
					return
				}
				book := f.Count.N + f.Missing.N
				if limit, ok := most.of(e.Date, l.Top.Variety, nil); ok && float64(f.Missing.N)*100 > limit.Value*float64(book) {
					p.reportf(e, f.Missing.Span, []string{l.Name}, "%d of %d are missing and nobody knows why, more than %s (%s); was a sale, a loss or a move not written?",
						f.Missing.N, book, limit, limit.Mark)
				}
			})
		},
	}
	foundPlants = &Rule{
		Name: "over-count", Severity: finding.Warning,
		Summary: "a stocktake finds more plants than there can be",
		Why:     "Plants do not come from nothing: seed came up late, two lots stand mixed, or a sowing, a return or a split was not written.",
		Bad:     bench + "count AM26 41, 3 over\n",
		Good:    bench + "count AM26 38\n",
		check: func(p *pass) {
			each(p, func(e *fact.Entry, f *fact.Stocktake) {
				if f.Over.N > 0 && p.lot(f.Lots[0]) != nil {
					p.reportf(e, f.Over.Span, []string{f.Lots[0].Text}, "%d more stand in %s than came in; look for an entry that is missing, or for plants of another lot", f.Over.N, f.Lots[0].Text)
				}
			})
		},
	}
)
