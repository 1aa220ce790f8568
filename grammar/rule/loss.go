package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var lossRule = &Rule{
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
					p.reportf(e, firstLine(e), []string{l.Name}, "%d of the %s of %s %s lost, more than %s (%s); look for one cause, and note it", lost[l], plants(had), l.Name, finding.Either(lost[l], "was", "were"), limit, limit.Mark)
				}
			}
		})
	},
}

// Of fewer plants than fewPlants no share is remarkable.
const fewPlants = 10
