package render

import (
	"iter"
	"unicode/utf8"

	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/source"
)

// places turns offsets into positions. It goes on from the last place it was
// asked for, since findings come in order and a line may hold very many.
type places struct {
	file *source.File
	off  int32
	pos  source.Position
	end  int32 // of the line
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

// placed is a finding with its place; the end is behind its last character.
type placed struct {
	finding.Finding
	start, end source.Position
}

// placed gives the findings of a result with their places, in order.
func (r Result) placed() iter.Seq[placed] {
	return func(yield func(placed) bool) {
		var p places
		for _, f := range r.Findings {
			start, end := p.at(f.File, f.Span.Start), p.at(f.File, f.Span.End)
			if !yield(placed{f, start, end}) {
				return
			}
		}
	}
}

// failOn is the least severity that fails the run.
func (r Result) failOn() finding.Severity {
	if r.FailOn == 0 {
		return finding.Error
	}
	return r.FailOn
}
