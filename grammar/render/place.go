package render

import (
	"unicode/utf8"

	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/source"
)

// places turns spans into positions. It goes on from the last place it was
// asked for, since findings come in order and a line may hold very many.
type places struct {
	file *source.File
	off  int32
	pos  source.Position
	end  int32 // of the line
}

// of gives where a span begins and ends; the end is the place behind its last
// character.
func (p *places) of(file *source.File, s source.Span) (start, end source.Position) {
	start = p.at(file, s.Start)
	return start, p.at(file, s.End)
}

func (p *places) at(file *source.File, off int32) source.Position {
	off = max(off, file.Start())
	if file == p.file && p.off <= off && off <= p.end {
		p.pos.Column += utf8.RuneCount(file.Bytes[p.off:off])
		p.off = off
		return p.pos
	}
	pos := file.Position(off)
	*p = places{file, off, pos, file.LineSpan(pos.Line).End}
	return pos
}

// placed is a finding with its place.
type placed struct {
	finding.Finding
	start, end source.Position
}

// each hands over the findings of a result with their places.
func (r Result) each(f func(placed) error) error {
	var p places
	for _, one := range r.Findings {
		start, end := p.of(one.File, one.Span)
		if err := f(placed{one, start, end}); err != nil {
			return err
		}
	}
	return nil
}

// failOn is the least severity that fails the run.
func (r Result) failOn() finding.Severity {
	if r.FailOn == 0 {
		return finding.Error
	}
	return r.FailOn
}
