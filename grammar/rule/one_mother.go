package rule

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var oneMother = &Rule{
	Name: "one-mother", Severity: finding.Hint, Limits: []string{"one-mother", "one-mother-grafts"},
	Summary: "most of a season's grafts come from one tree",
	Why: "If she turns out sick or off-type, the season is lost. Wood from a second tree of the variety costs little. " +
		"Asked only of a season with many grafts.",
	Bad:  kestrel + "\n2026-03-02\ngraft 60 of QB25 with M7 by cleft as AM26 worker Ines\ngraft 40 of QB25 with M7 by cleft as AM26b worker Ines\n",
	Good: kestrel + secondTree + "\n2026-03-02\ngraft 50 of QB25 with M7 by cleft as AM26 worker Ines\ngraft 50 of QB25 with M8 by cleft as AM26b worker Ines\n",
	check: func(p *pass) {
		share, many := p.gauge("one-mother"), p.gauge("one-mother-grafts")
		var season fact.Season
		var last *nursery.Batch
		total := int32(0)
		from := map[*nursery.Tree]int32{}
		close := func() {
			if last == nil {
				return
			}
			least, _ := many.of(season.Last, nil, nil)
			most, ok := share.of(season.Last, nil, nil)
			for tree, n := range from {
				if ok && float64(total) >= least.Value && float64(n)*100 > most.Value*float64(total) {
					p.reportf(last.Entry, firstLine(last.Entry), []string{tree.Name}, "%d of the %d grafts of the season %d are from %s, more than %s of them (%s)",
						n, total, season.Year(), tree.Name, most, most.Mark)
				}
			}
			total, last = 0, nil
			clear(from)
		}
		p.grafts(func(b *nursery.Batch, _ *fact.Graft) {
			if !season.Contains(b.Entry.Date) {
				close()
				season = fact.SeasonOf(b.Entry.Date, p.SeasonFrom())
			}
			total, last = total+b.Made, b
			if tree := onlyMother(b.Wood); tree != nil {
				from[tree] += b.Made
			}
		})
		p.end(close)
	},
}

// onlyMother is the one tree that all wood of a graft is from, or nil.
func onlyMother(wood []nursery.Source) *nursery.Tree {
	if len(wood) != 1 {
		return nil
	}
	if b, ok := wood[0].Thing.(*nursery.Bundle); ok {
		return onlyMother(b.From)
	}
	return nursery.TreeOf(wood[0].Thing)
}
