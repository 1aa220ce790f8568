package entry

import (
	"fmt"
	"runtime"
	"sync"
	"sync/atomic"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/grammar/syntax"
)

// A Page is one file, read: its entries in the order in which they stand, and
// what is wrong with them taken one by one.
type Page struct {
	File     *source.File
	Entries  []fact.Entry
	Findings []finding.Finding
	// Broken are the entries that could not be read. They count for nothing;
	// names in them are kept, so that what they may have made is not called
	// unknown as well.
	Broken []Broken
}

// Broken is an entry that could not be read, and the names that stand in it.
type Broken struct {
	Span   source.Span
	Line   int32  // of its first character
	Begins string // its first line, with one blank between words
	Names  []string
}

// A piece is a run of entries that one goroutine reads.
type piece struct {
	chunks []dated
	out    Page
}

// dated is an entry's text with the day it stands under.
type dated struct {
	syntax.Chunk
	day  fact.Date
	lost bool // the day line above it could not be read
}

// pieceSize is the number of entries that are read in one go.
const pieceSize = 2048

// parsers are kept from file to file, with the shapes of entries that they know.
var parsers = sync.Pool{New: func() any { return syntax.NewParser() }}

// Read reads a file. It finds all that is wrong with its text in one pass and
// never fails: a file that is no text is one finding.
func Read(file *source.File) *Page {
	if off := file.NotText(); off >= 0 {
		return &Page{File: file, Findings: []finding.Finding{notText(file, off)}}
	}
	page, _ := Stretch(file, Day{})
	return page
}

// Stretch reads a stretch of a longer file as Read would where it stands: it
// begins at an entry or a day, and before it the file ends under from. It
// returns what the next stretch begins under. The stretch must be text.
func Stretch(file *source.File, from Day) (*Page, Day) {
	page := &Page{File: file}
	days := dayReader{from, reader{file: file}}
	pieces := days.cut()
	read(file, pieces)
	page.gather(pieces, days.reader.findings, from.begun)
	days.begun = days.begun || len(pieces) > 0
	return page, days.Day
}

// read reads pieces of a file, several at a time where there are several.
func read(file *source.File, pieces []*piece) {
	var next atomic.Int32
	some := func() {
		r := &Reader{parsers.Get().(*syntax.Parser), reader{file: file}}
		defer parsers.Put(r.parser)
		for i := int(next.Add(1)); i <= len(pieces); i = int(next.Add(1)) {
			r.piece(pieces[i-1])
		}
	}
	if len(pieces) == 1 {
		some()
		return
	}
	var readers sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(pieces)) {
		readers.Go(some)
	}
	readers.Wait()
}

// cut cuts the file into entries under their days, in pieces.
func (d *dayReader) cut() []*piece {
	var pieces []*piece
	isDay := syntax.IsDay(d.reader.file)
	syntax.Chunks(d.reader.file, isDay, func(c syntax.Chunk) bool {
		if !c.Stray && isDay(c.Span) {
			d.line(c)
			return true
		}
		if len(pieces) == 0 || len(pieces[len(pieces)-1].chunks) == pieceSize {
			pieces = append(pieces, &piece{})
		}
		last := pieces[len(pieces)-1]
		last.chunks = append(last.chunks, dated{c, d.day, d.lost})
		return true
	})
	return pieces
}

// gather puts the pieces together in order; begun says that entries stand above.
func (p *Page) gather(pieces []*piece, days []finding.Finding, begun bool) {
	n := 0
	for _, q := range pieces {
		n += len(q.out.Entries)
	}
	p.Entries = make([]fact.Entry, 0, n)
	p.Findings = days
	for _, q := range pieces {
		p.Entries = append(p.Entries, q.out.Entries...)
		p.Findings = append(p.Findings, q.out.Findings...)
		p.Broken = append(p.Broken, q.out.Broken...)
	}
	for i := range p.Entries {
		e := &p.Entries[i]
		if _, ok := e.Effect.(*fact.Version); ok && (begun || e.Span != pieces[0].chunks[0].Span) {
			p.Findings = append(p.Findings, finding.Finding{
				File: p.File, Span: e.Span, Severity: finding.Error, Rule: "version",
				Message: "the version of the language stands before every other entry of its file",
			})
		}
	}
}

// A Reader reads entries of one file, one at a time. It is for one goroutine.
type Reader struct {
	parser *syntax.Parser
	reader reader
}

// NewReader makes a Reader for the entries of a file.
func NewReader(file *source.File) *Reader {
	return &Reader{syntax.NewParser(), reader{file: file}}
}

func (r *Reader) piece(p *piece) {
	p.out.Entries = make([]fact.Entry, 0, len(p.chunks))
	for _, c := range p.chunks {
		if entry, ok := r.read(c); ok && !c.lost {
			p.out.Entries = append(p.out.Entries, entry)
		} else {
			p.out.Broken = append(p.out.Broken, Broken{c.Span, c.Line, firstLine(r.reader.file, c.Span), r.reader.mentioned()})
		}
		p.out.Findings = append(p.out.Findings, r.reader.findings...)
	}
}

// Entry reads one entry, which stands under day. It reports false where the
// entry is broken and must not count.
func (r *Reader) Entry(c syntax.Chunk, day fact.Date) (fact.Entry, []finding.Finding, bool) {
	entry, ok := r.read(dated{Chunk: c, day: day})
	return entry, r.reader.findings, ok
}

func (r *Reader) read(c dated) (fact.Entry, bool) {
	rd := &r.reader
	rd.toks = syntax.Lex(rd.file.Bytes, c.Span, rd.toks[:0])
	rd.day, rd.lost, rd.ext, rd.failed = c.day, c.lost, nil, false
	rd.findings = nil
	entry := fact.Entry{File: rd.file, Span: c.Span, Line: c.Line, Date: c.day}
	kind, ok := rd.kind(c.Chunk)
	if !ok || rd.badTokens() {
		return entry, false
	}
	tree, mismatch := r.parser.Parse(kind.Grammar, rd.file, rd.toks)
	if mismatch != nil {
		rd.mismatch(r.parser, kind, mismatch)
		return entry, false
	}
	entry.Verb = kind.Verb
	entry.Effect = kind.lower(rd, tree)
	entry.Extra = rd.ext
	rd.place(kind, entry.Effect)
	return entry, !rd.failed
}

// mentioned is every name in the entry at hand.
func (r *reader) mentioned() []string {
	var out []string
	for _, t := range r.toks {
		switch t.Kind {
		case syntax.Word:
			out = append(out, syntax.Hyphens(r.file.Text(t.Span)))
		case syntax.Quoted:
			out = append(out, syntax.Unquote(r.file.Text(t.Span)))
		}
	}
	return out
}

// place checks that an entry which says that something happened stands under
// a day.
func (r *reader) place(k *Kind, e fact.Effect) {
	if r.day != 0 || r.lost || fact.Declares(e) {
		return
	}
	switch e.(type) {
	case *fact.Version, *fact.Allow, *fact.Strike, *fact.Seal, *fact.Remark, *fact.Mark:
		return
	}
	r.errorf(r.toks[0].Span, "no-day", "%s says that something happened, so it needs a day above it: a line with the date, such as 2026-03-02", k.Verb)
}

// notText is the one finding of a file that is no text.
func notText(file *source.File, off int) finding.Finding {
	what := "this is no UTF-8 text"
	if file.Bytes[off] == 0 {
		what = "there is a NUL byte, so this is no text"
	}
	return finding.Finding{
		File: file, Span: source.Span{Start: int32(off), End: int32(off)}, Severity: finding.Error, Rule: "text",
		Message: fmt.Sprintf("%s (byte %d of the file); save the journal as UTF-8 text", what, off),
	}
}

// Last is the last day of the page that has an entry under it; 0 where there is
// none.
func (p *Page) Last() fact.Date {
	var last fact.Date
	for i := range p.Entries {
		last = max(last, p.Entries[i].Date)
	}
	return last
}
