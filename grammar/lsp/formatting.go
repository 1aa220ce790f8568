package lsp

import (
	"context"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/format"
	"github.com/budstick/budstick/grammar/source"
)

// formatting lays the whole file out, as the command does: not at all where
// there is an error in it.
func formatting(_ context.Context, d document, _ struct{}) (any, error) {
	page := entry.Read(d.whole())
	edits, ok := format.Edits(page, source.Span{End: d.len()})
	if !ok {
		for _, f := range page.Standing() {
			if f.Severity == finding.Error {
				return nil, failed("line %d has an error, and a file with an error is left as it is: %s", d.lineAt(f.Span.Start), f.Message)
			}
		}
	}
	return d.textEdits(edits), nil
}

// rangeFormatting lays out the entries that a range touches, if there is no
// error in one of them.
func rangeFormatting(_ context.Context, d document, p documentRange) (any, error) {
	start, ok1 := d.offset(p.Range.Start, d.encoding)
	end, ok2 := d.offset(p.Range.End, d.encoding)
	if !ok1 || !ok2 || end < start {
		return nil, invalid("the range is no part of the text")
	}
	edits, err := d.layOut(source.Span{Start: start, End: end})
	return d.textEdits(edits), err
}

type onTypeParams struct {
	documentPosition
	Ch string `json:"ch"`
}

// onTypeFormatting lays out the entry above the line that was just begun. One
// that can't be read is left alone without a word.
func onTypeFormatting(_ context.Context, d document, p onTypeParams) (any, error) {
	if p.Ch != "\n" || p.Position.Line == 0 {
		return []textEdit{}, nil
	}
	above, ok := d.offset(position{p.Position.Line - 1, 0}, d.encoding)
	if !ok {
		return nil, invalid("%s has no line %d", d.uri, p.Position.Line)
	}
	edits, err := d.layOut(source.Span{Start: above, End: above})
	if err != nil {
		return []textEdit{}, nil
	}
	at, _ := d.offset(p.Position, d.encoding)
	var before []finding.Mend
	for _, e := range edits { // the line with the cursor stays as it is
		if e.Span.End <= at {
			before = append(before, e)
		}
	}
	return d.textEdits(before), nil
}

// layOut lays out the entries that a span of the file touches, if all of them
// can be read.
func (d document) layOut(s source.Span) ([]finding.Mend, error) {
	if d.notText() >= 0 {
		return nil, failed("this is no text, so it can't be laid out")
	}
	all := source.Span{Start: max(d.entryAt(s.Start), d.sealedTo()), End: d.entryBehind(s.End)}
	if all.End <= all.Start {
		return nil, nil
	}
	for _, f := range d.allFindings() {
		if f.Severity == finding.Error && all.Contains(f.Span.Start) {
			return nil, failed("line %d has an error and is left as it is: %s", d.lineAt(f.Span.Start), f.Message)
		}
	}
	part := source.New(d.path, d.bytes(all.Start, all.End))
	edits, _ := format.Edits(&entry.Page{File: part}, shifted(s, -all.Start))
	for i := range edits {
		edits[i].Span = shifted(edits[i].Span, all.Start)
	}
	return edits, nil
}

// entryAt is where the entry or day begins that stands at an offset or is the
// last one before it.
func (t *text) entryAt(off int32) int32 {
	i := t.at(off)
	c, _ := t.blocks[i].chunkAt(off - t.starts[i])
	return t.starts[i] + c.Span.Start
}

// entryBehind is where the first entry or day behind an offset begins, or the
// end.
func (t *text) entryBehind(off int32) int32 {
	for i := t.at(off); i < len(t.blocks); i++ {
		for _, c := range t.blocks[i].chunks() {
			if at := t.starts[i] + c.Span.Start; at > off {
				return at
			}
		}
	}
	return t.len()
}

// textEdits is changes of the file at hand in the words of the protocol.
func (d document) textEdits(mends []finding.Mend) []textEdit {
	list := make([]textEdit, len(mends))
	for i, m := range mends {
		list[i] = textEdit{d.rangeOf(m.Span, d.encoding), m.Text}
	}
	return list
}
