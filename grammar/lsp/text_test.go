package lsp

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/source"
)

// smallBlocks makes blocks of a few lines each, for one test.
func smallBlocks(t *testing.T) {
	was := blockSize
	blockSize = 24
	t.Cleanup(func() { blockSize = was })
}

// scraps are what random texts are made of: entries, days, and all that makes
// it hard to tell where one ends.
var scraps = []string{
	"2026-03-02\n", "2026-03-02 Tue\n", "2025-11-03 Mon\n", "2026-13-01\n", "2026-11-20", "farm \"Kestrel Hollow\" currency EUR\n",
	"variety Amberlight species \"Eriobotrya japonica\"\n", "tree M7 variety Amberlight\n", "variety \"Quince BA\" species \"Cydonia oblonga\"\n",
	"buy 100 liners of \"Quince BA\" as QB25\n", "graft 40 of QB25 with M7 by cleft as AM26\n", "check AM26: 30 took, 8 failed, 2 dead\n",
	"sell 5 of AM26 to Bob at 19.00 each\n", "strike line 3 tree because \"x\"\n", "seal sha256 9f2c6b0e5d7a41388c1d4be0a7f35e926d08b1c4f7a2e3905b6c8d1f20a4e7b3\n",
	"  worker Ines 1 h\n", "  # a comment\n", "# a comment\n", "\n", "\r\n", "\r", " ", "note M7 \"été 🌱\"\n", "é", "🌱", "\uFEFF", "\"", "as ", "12 ",
	"budstick 1\n", "allow old-wood on M7 because \"x\"\n", "pick 3 kg from M7\n", "x\n", "2", "\x00", "pot XX9 to 3 L\n", "sow 9 seed of Amberlight as XX9\n", "sow 9 seeds of Amberlight as XX9\n",
}

func drawText(t *rapid.T, most int) string {
	return strings.Join(rapid.SliceOfN(rapid.SampledFrom(scraps), 0, most).Draw(t, "text"), "")
}

// drawEdit is an edit of a text at whole characters.
func drawEdit(t *rapid.T, text string) edit {
	var at []int
	for i := range text {
		at = append(at, i)
	}
	at = append(at, len(text))
	from := rapid.IntRange(0, len(at)-1).Draw(t, "from")
	to := min(from+rapid.IntRange(0, 30).Draw(t, "long"), len(at)-1)
	return edit{int32(at[from]), int32(at[to]), drawText(t, 3)}
}

// reads is what reading tells of a page, with places in the whole file.
func reads(p *entry.Page, findings []finding.Finding, absolute func(*source.File, source.Span) source.Span) []string {
	var out []string
	for i := range p.Entries {
		e := &p.Entries[i]
		s := absolute(e.File, e.Span)
		out = append(out, fmt.Sprintf("entry %d %v %s %s %q", e.Line, s, e.Date, e.Verb, e.File.Text(e.Span)))
	}
	for _, b := range p.Broken {
		out = append(out, fmt.Sprintf("broken %d %v %q", b.Line, b.Span, b.Names))
	}
	for _, f := range finding.Sort(slices.Clone(findings)) {
		line := fmt.Sprintf("finding %v %s %s", f.Span, f.Rule, f.Message)
		for _, r := range f.Related {
			line += fmt.Sprintf(" see %v", r.Span)
		}
		if f.Mend != nil {
			line += fmt.Sprintf(" mend %v %q", f.Mend.Span, f.Mend.Text)
		}
		out = append(out, line)
	}
	return out
}

// A text that was edited is the text that would be loaded now: the same bytes,
// entries and findings, and the same places for an editor.
func TestEditedTextIsAFreshOne(t *testing.T) {
	smallBlocks(t)
	rapid.Check(t, func(t *rapid.T) {
		model := drawText(t, 40)
		now := newText("x.bud", []byte(model))
		for range rapid.IntRange(1, 6).Draw(t, "edits") {
			e := drawEdit(t, model)
			model = model[:e.start] + e.with + model[e.end:]
			now = now.edit(e.start, e.end, e.with)
			if got := string(now.bytes(0, now.len())); got != model {
				t.Fatalf("the text is %q, want %q", got, model)
			}
		}
		for i, b := range now.blocks {
			if i > 0 && (!beginsEntry(b.file.Bytes) || now.blocks[i-1].file.Bytes[len(now.blocks[i-1].file.Bytes)-1] != '\n') {
				t.Fatalf("block %d begins within an entry: %q", i, b.file.Bytes)
			}
		}
		whole := source.New("x.bud", []byte(model))
		fresh := entry.Read(whole)
		want := reads(fresh, fresh.Findings, func(_ *source.File, s source.Span) source.Span { return s })
		got := reads(now.page(), now.readFindings(), func(f *source.File, s source.Span) source.Span {
			s, _ = now.absolute(f, s)
			return s
		})
		if !slices.Equal(got, want) {
			t.Fatalf("edited:\n%s\nloaded:\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
		}
		for i := range model + "." {
			for _, encoding := range []source.Encoding{source.UTF16, source.UTF8} {
				row, column := whole.RowColumn(int32(i), encoding)
				if p := now.rowColumn(int32(i), encoding); p != (position{row, column}) {
					t.Fatalf("byte %d is at %v, want %d:%d", i, p, row, column)
				}
				want, _ := whole.RowOffset(row, column, encoding)
				if off, ok := now.offset(position{row, column}, encoding); !ok || off != want {
					t.Fatalf("%d:%d is byte %d, want %d", row, column, off, want)
				}
			}
		}
	})
}

// Blocks stay of a size: many small edits leave neither very many nor very
// large ones.
func TestBlocksStayOfASize(t *testing.T) {
	now := newText("x.bud", nil)
	var model bytes.Buffer
	for i := range 1500 {
		line := fmt.Sprintf("2026-03-02\nnote \"entry %d of many\"\n", i)
		now = now.edit(now.len(), now.len(), line)
		model.WriteString(line)
	}
	for now.len() > int32(model.Len()/2) {
		at := now.len() / 3
		now = now.edit(at, at+100, "")
	}
	for i, b := range now.blocks {
		if n := len(b.file.Bytes); n > 3*blockSize || n < blockSize/4 && len(now.blocks) > 1 && i < len(now.blocks)-1 {
			t.Errorf("block %d of %d has %d bytes", i, len(now.blocks), n)
		}
	}
}
