package lsp

import (
	"context"
	"time"

	"github.com/budstick/budstick/grammar/fact"
)

type fold struct {
	StartLine int    `json:"startLine"`
	EndLine   int    `json:"endLine"`
	Kind      string `json:"kind,omitempty"`
}

// foldingRange folds days, and around them the seasons of the farm.
func foldingRange(_ context.Context, d document, _ struct{}) (any, error) {
	from := d.journal.seasonFrom()
	list := []fold{}
	var season fact.Season
	first, last := -1, 0 // rows of the season at hand
	close := func() {
		if first >= 0 && last > first {
			list = append(list, fold{first, last, "region"})
		}
	}
	for one := range d.daysOf() {
		if one.date != 0 && !season.Contains(one.date) {
			close()
			season, first = fact.SeasonOf(one.date, from), one.first
		}
		last = one.last
		if one.last > one.first {
			list = append(list, fold{one.first, one.last, ""})
		}
	}
	close()
	return list, nil
}

// A dayOf is a day of a text: its line, and the last line of what stands under
// it, as an editor counts rows.
type dayOf struct {
	date        fact.Date
	start       int32 // the offset of its line
	first, last int
	end         int32 // the offset of the end of what stands under it
}

// daysOf gives the days of a text in order. What stands above the first is not
// among them.
func (t *text) daysOf() func(yield func(dayOf) bool) {
	return func(yield func(dayOf) bool) {
		var open dayOf
		have := false
		for i, b := range t.blocks {
			days := b.days()
			for _, c := range b.chunks() {
				row, _ := b.file.RowColumn(c.Span.End, 0)
				row += int(t.rows[i])
				if len(days) > 0 && days[0].chunk == c {
					if have && !yield(open) {
						return
					}
					have = true
					open = dayOf{date: days[0].date, start: t.starts[i] + c.Span.Start, first: row}
					days = days[1:]
				}
				open.last, open.end = row, t.starts[i]+c.Span.End
			}
		}
		if have {
			yield(open)
		}
	}
}

// seasonFrom is the month in which the farm's seasons begin.
func (s *snapshot) seasonFrom() time.Month {
	for _, f := range s.files {
		for _, b := range f.blocks {
			for i := range b.page.Entries {
				if farm, ok := b.page.Entries[i].Effect.(*fact.Farm); ok {
					return max(farm.SeasonFrom, time.January)
				}
			}
		}
	}
	return time.January
}
