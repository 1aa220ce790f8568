package lsp

import (
	"context"
	"slices"
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/grammar/source"
)

type hint struct {
	Position    position `json:"position"`
	Label       string   `json:"label"`
	PaddingLeft bool     `json:"paddingLeft"`
}

// inlayHint shows behind each entry what it leaves of the lots and bundles that
// it draws on or makes.
func inlayHint(ctx context.Context, d document, p documentRange) (any, error) {
	start, ok1 := d.offset(p.Range.Start, d.encoding)
	end, ok2 := d.offset(p.Range.End, d.encoding)
	if !ok1 || !ok2 || end < start {
		return nil, invalid("the range is no part of the text")
	}
	r, err := within(ctx, d.journal.replayed)
	if err != nil {
		return nil, err
	}
	list := []hint{}
	s := r.newStock()
	for e, at := range d.entriesIn(r, source.Span{Start: start, End: end}) {
		s.while(func(m *fact.Entry) bool { return m != e && r.above(m, spot{d.path, e.Date, e.Line}) })
		s.touched = nil
		s.while(func(m *fact.Entry) bool { return m == e })
		if label := s.leftover(); label != "" {
			list = append(list, hint{d.rowColumn(at.End, d.encoding), label, true})
		}
	}
	return list, nil
}

// leftover says what is left of all that was touched.
func (s *stock) leftover() string {
	var parts []string
	var done []nursery.Thing
	for _, t := range s.touched {
		if !slices.Contains(done, t) {
			done = append(done, t)
			parts = append(parts, t.Label()+": "+s.left(t))
		}
	}
	return strings.Join(parts, " · ")
}

// entriesIn gives the entries of the file that a span touches, as they were
// replayed.
func (d document) entriesIn(r *replay, s source.Span) func(yield func(*fact.Entry, source.Span) bool) {
	return func(yield func(*fact.Entry, source.Span) bool) {
		page := d.page()
		first := 0
		for i := 0; i < d.at(s.Start); i++ {
			first += len(d.blocks[i].page.Entries)
		}
		for i := first; i < len(page.Entries); i++ {
			at, _ := d.absolute(page.Entries[i].File, page.Entries[i].Span)
			if at.Start > s.End {
				return
			}
			if at.End >= s.Start && !yield(&page.Entries[i], at) {
				return
			}
		}
	}
}
