package lsp

import (
	"fmt"
	"slices"
	"sort"
	"strings"
	"sync"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/grammar/syntax"
)

// A text is one version of a journal file. It is never changed: an edit makes
// another text, which shares with it all blocks that the edit did not touch.
//
// Each block but the first begins at an entry or a day, so it can be read by
// itself once it is known under which day it begins. All spans within a block
// count from its own beginning and stay true when text above it changes.
type text struct {
	name   *source.File // the path and nothing else: what findings with absolute spans are of
	blocks []*block
	starts []int32 // the first byte of each block, and at the end the length
	lines  []int32 // how many ends of lines stand above each block, as journals count them
	rows   []int32 // the same as editors count them

	whole func() *source.File
	page  func() *entry.Page
	index func() map[*source.File]int // the number of each block, by its file
}

// A block is a run of whole entries.
type block struct {
	file     *source.File
	page     *entry.Page
	from, to entry.Day
	bad      int  // the first byte that is no text, or -1
	bound    bool // see sameFacts
	fault    any  // a mistake of the program's own, for which nothing of it is read

	// What follows is worked out when it is first asked for.
	chunks func() []syntax.Chunk // days among them
	days   func() []day
	names  func() []mention
	tokens func() []token
}

// blockSize is how many bytes are read again for a keystroke, or up to twice as
// many: about 300 entries, in which a millisecond goes. Tests make it small.
var blockSize = 12 << 10

func newText(path string, b []byte) *text {
	return assemble(path, readOn(path, entry.Day{}, cut(b)))
}

// cut parts the bytes of a file into blocks.
func cut(b []byte) [][]byte {
	var parts [][]byte
	for len(b) > 2*blockSize {
		at := blockSize
		for at < len(b) && !(b[at-1] == '\n' && beginsEntry(b[at:])) {
			at++
		}
		parts = append(parts, b[:at:at])
		b = b[at:]
	}
	if len(b) > 0 {
		parts = append(parts, b)
	}
	return parts
}

// beginsEntry reports whether a line surely starts an entry or a day.
func beginsEntry(line []byte) bool {
	if len(line) == 0 {
		return false
	}
	c := line[0]
	return c >= '0' && c <= '9' || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z'
}

// readOn reads blocks that follow one another.
func readOn(path string, day entry.Day, parts [][]byte) []*block {
	var list []*block
	for _, part := range parts {
		b := readBlock(newBlockFile(path, part), day)
		day = b.to
		list = append(list, b)
	}
	return list
}

// newBlockFile gives a block a file of its own. No two blocks of a journal have
// files of one name, so no two findings in them are taken for one.
func newBlockFile(path string, b []byte) *source.File {
	f := source.New("", b)
	f.Path = fmt.Sprintf("%s\x00%p", path, f)
	return f
}

func readBlock(f *source.File, from entry.Day) *block {
	b := &block{file: f, from: from, bad: f.NotText()}
	b.page, b.to = &entry.Page{File: f}, from
	if b.bad < 0 {
		b.stretch(from)
	}
	b.bound = b.findBound()
	b.chunks = sync.OnceValue(b.findChunks)
	b.days = sync.OnceValue(b.findDays)
	b.names = sync.OnceValue(b.findNames)
	b.tokens = sync.OnceValue(b.findTokens)
	return b
}

// stretch reads the block. Whatever happens, the text is what it is: an editor
// that goes on typing must find it so.
func (b *block) stretch(from entry.Day) {
	defer func() { b.fault = recover() }()
	b.page, b.to = entry.Stretch(b.file, from)
}

// fault is the first mistake of the program's own in reading a text, or nil.
func (t *text) fault() any {
	for _, b := range t.blocks {
		if b.fault != nil {
			return b.fault
		}
	}
	return nil
}

// assemble puts blocks together to a text.
func assemble(path string, blocks []*block) *text {
	if len(blocks) == 0 {
		blocks = readOn(path, entry.Day{}, [][]byte{{}})
	}
	n := len(blocks) + 1
	t := &text{name: source.New(path, nil), blocks: blocks, starts: make([]int32, n), lines: make([]int32, n), rows: make([]int32, n)}
	for i, b := range blocks {
		t.starts[i+1] = t.starts[i] + int32(len(b.file.Bytes))
		t.lines[i+1] = t.lines[i] + int32(b.file.Lines()-1)
		t.rows[i+1] = t.rows[i] + int32(b.file.Rows()-1)
	}
	t.whole = sync.OnceValue(func() *source.File { return source.New(path, t.bytes(0, t.len())) })
	t.page = sync.OnceValue(t.makePage)
	t.index = sync.OnceValue(t.makeIndex)
	return t
}

func (t *text) makeIndex() map[*source.File]int {
	m := make(map[*source.File]int, len(t.blocks))
	for i, b := range t.blocks {
		m[b.file] = i
	}
	return m
}

func (t *text) len() int32 { return t.starts[len(t.blocks)] }

// at is the number of the block that holds a byte; the end belongs to the last.
func (t *text) at(off int32) int {
	i := sort.Search(len(t.blocks), func(i int) bool { return t.starts[i+1] > off })
	return min(i, len(t.blocks)-1)
}

// bytes is a copy of a part of the text.
func (t *text) bytes(start, end int32) []byte {
	out := make([]byte, 0, end-start)
	for i := t.at(start); i < len(t.blocks) && t.starts[i] < end; i++ {
		b := t.blocks[i].file.Bytes
		out = append(out, b[max(start-t.starts[i], 0):min(end-t.starts[i], int32(len(b)))]...)
	}
	return out
}

// edit is the text with other text in place of a part of it.
func (t *text) edit(start, end int32, with string) *text {
	first, last := t.at(start), t.at(end)
	parts := func() []byte {
		b := make([]byte, 0, int(t.starts[last+1]-t.starts[first])+len(with))
		b = append(b, t.bytes(t.starts[first], start)...)
		b = append(b, with...)
		return append(b, t.bytes(end, t.starts[last+1])...)
	}
	b := parts()
	for {
		switch {
		case first > 0 && !beginsEntry(b): // what stands there now goes on with the entry above
			first--
		case last+1 < len(t.blocks) && (len(b) < blockSize/4 || b[len(b)-1] != '\n'):
			last++
		default:
			return t.replace(first, last, cut(b))
		}
		b = parts()
	}
}

// replace puts parts in place of blocks and reads them, with the blocks below
// that begin under another day by it.
func (t *text) replace(first, last int, parts [][]byte) *text {
	day := entry.Day{}
	if first > 0 {
		day = t.blocks[first-1].to
	}
	blocks := slices.Clone(t.blocks[:first])
	blocks = append(blocks, readOn(t.name.Path, day, parts)...)
	if len(blocks) > 0 {
		day = blocks[len(blocks)-1].to
	}
	rest := t.blocks[last+1:]
	for len(rest) > 0 && rest[0].from != day {
		b := readBlock(rest[0].file, day)
		blocks, rest, day = append(blocks, b), rest[1:], b.to
	}
	return assemble(t.name.Path, append(blocks, rest...))
}

// rowColumn is where a byte stands for an editor.
func (t *text) rowColumn(off int32, e source.Encoding) position {
	i := t.at(off)
	row, column := t.blocks[i].file.RowColumn(off-t.starts[i], e)
	return position{int(t.rows[i]) + row, column}
}

func (t *text) rangeOf(s source.Span, e source.Encoding) span {
	return span{t.rowColumn(s.Start, e), t.rowColumn(s.End, e)}
}

// offset is the inverse of rowColumn; it reports false where the text has no
// such place.
func (t *text) offset(p position, e source.Encoding) (int32, bool) {
	i := sort.Search(len(t.blocks), func(i int) bool { return int(t.rows[i+1]) > p.Line })
	i = min(i, len(t.blocks)-1)
	off, ok := t.blocks[i].file.RowOffset(p.Line-int(t.rows[i]), p.Character, e)
	return t.starts[i] + off, ok
}

// absolute is a span of a block, or of the whole file, within the whole file.
func (t *text) absolute(f *source.File, s source.Span) (source.Span, bool) {
	i, ok := t.index()[f]
	if !ok {
		return s, f.Path == t.name.Path
	}
	return shifted(s, t.starts[i]), true
}

func shifted(s source.Span, by int32) source.Span {
	return source.Span{Start: s.Start + by, End: s.End + by}
}

// notText is the first byte that is no text, or -1.
func (t *text) notText() int32 {
	for i, b := range t.blocks {
		if b.bad >= 0 {
			return t.starts[i] + int32(b.bad)
		}
	}
	return -1
}

// makePage is the text as the nursery replays it: the entries of all blocks,
// each on its line of the whole file, and no findings (those of reading are
// kept with the blocks).
func (t *text) makePage() *entry.Page {
	page := &entry.Page{File: t.name}
	if t.notText() >= 0 {
		return page
	}
	n := 0
	for _, b := range t.blocks {
		n += len(b.page.Entries)
	}
	page.Entries = make([]fact.Entry, 0, n)
	for i, b := range t.blocks {
		from := len(page.Entries)
		page.Entries = append(page.Entries, b.page.Entries...)
		for j := from; j < len(page.Entries); j++ {
			e := &page.Entries[j]
			e.Line += t.lines[i]
			if f, ok := e.Effect.(*fact.Seal); ok {
				t.reseal(e, f, t.starts[i])
			}
		}
		for _, broken := range b.page.Broken {
			broken.Span, broken.Line = shifted(broken.Span, t.starts[i]), broken.Line+t.lines[i]
			page.Broken = append(page.Broken, broken)
		}
	}
	return page
}

// reseal lets a seal stand in the whole file, over which it was made.
func (t *text) reseal(e *fact.Entry, f *fact.Seal, start int32) {
	hash := f.Hash
	hash.Span = shifted(hash.Span, start)
	e.File, e.Span, e.Effect = t.whole(), shifted(e.Span, start), &fact.Seal{Hash: hash}
}

// readFindings is what reading alone finds wrong with the text, but for entries
// that are struck.
func (t *text) readFindings() []finding.Finding {
	list := t.allFindings()
	if len(list) > 0 && bound(t.blocks) {
		return entry.Outside(t.page().Struck(), list)
	}
	return list
}

// allFindings is what reading alone finds wrong with the text.
func (t *text) allFindings() []finding.Finding {
	if t.notText() >= 0 {
		return t.absoluteAll(entry.Read(t.whole()).Findings)
	}
	var list []finding.Finding
	for _, b := range t.blocks {
		list = append(list, t.absoluteAll(b.page.Findings)...)
	}
	return list
}

// absoluteAll is findings with their places in the whole file.
func (t *text) absoluteAll(list []finding.Finding) []finding.Finding {
	return placedBy(list, func(f *source.File) (*text, bool) { return t, true })
}

// placedBy is findings with their places in whole files, which textOf finds by
// the file that a finding names. One whose file is not found is left out.
func placedBy(list []finding.Finding, textOf func(*source.File) (*text, bool)) []finding.Finding {
	out := make([]finding.Finding, 0, len(list))
	for _, f := range list {
		t, ok := textOf(f.File)
		if !ok {
			continue
		}
		file := f.File
		at, ok := t.absolute(file, f.Span)
		if !ok {
			continue
		}
		f.File, f.Span = t.name, at
		if f.Mend != nil {
			mend := *f.Mend
			mend.Span, _ = t.absolute(file, mend.Span)
			f.Mend = &mend
		}
		f.Related = slices.Clone(f.Related)
		for i := range f.Related {
			r := &f.Related[i]
			if t, ok := textOf(r.File); ok {
				r.Span, _ = t.absolute(r.File, r.Span)
				r.File = t.name
			}
		}
		out = append(out, f)
	}
	return out
}

// pathOf is the path of the whole file that a block's file is of.
func pathOf(f *source.File) string {
	path, _, _ := strings.Cut(f.Path, "\x00")
	return path
}
