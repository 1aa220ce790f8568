package syntax

import (
	"bytes"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"github.com/budstick/budstick/grammar/source"
)

type chunkText struct {
	Line  int32
	Text  string
	Stray bool
}

func chunks(text string) []chunkText {
	file := source.New("x.bud", []byte(text))
	var out []chunkText
	Chunks(file, IsDay(file), func(c Chunk) bool {
		out = append(out, chunkText{c.Line, file.Text(c.Span), c.Stray})
		return true
	})
	return out
}

func TestChunks(t *testing.T) {
	for name, c := range map[string]struct {
		text string
		want []chunkText
	}{
		"entries begin in column one":  {"sow 1\nlose 2\n", []chunkText{{1, "sow 1", false}, {2, "lose 2", false}}},
		"indented lines go on":         {"graft 1\n  with W7\n\tas AM26\nsow 2", []chunkText{{1, "graft 1\n  with W7\n\tas AM26", false}, {4, "sow 2", false}}},
		"blank lines end nothing":      {"graft 1\n\n  with W7\n \nsow", []chunkText{{1, "graft 1\n\n  with W7", false}, {5, "sow", false}}},
		"comment lines end nothing":    {"graft 1\n# c\n  # d\n  with W7 # e\n# f\n", []chunkText{{1, "graft 1\n# c\n  # d\n  with W7 # e", false}}},
		"nothing goes on with a day":   {"2026-03-02\n  sow 1\n  as A\nsow 2", []chunkText{{1, "2026-03-02", false}, {2, "sow 1\n  as A", true}, {4, "sow 2", false}}},
		"nothing goes on with the top": {"  sow 1\n", []chunkText{{1, "sow 1", true}}},
		"CRLF":                         {"sow 1\r\n  as A\r\n\r\nsow 2\r\n", []chunkText{{1, "sow 1\r\n  as A", false}, {4, "sow 2", false}}},
		"a byte-order mark":            {"\ufeffsow 1\n", []chunkText{{1, "sow 1", false}}},
		"hard blanks indent":           {"sow 1\n\u00a0as A\n", []chunkText{{1, "sow 1\n\u00a0as A", false}}},
		"nothing":                      {"\n# c\n  \n", nil},
	} {
		if diff := cmp.Diff(c.want, chunks(c.text)); diff != "" {
			t.Errorf("%s: %s", name, diff)
		}
	}
}

func TestChunksStop(t *testing.T) {
	file := source.New("x.bud", []byte("a\nb\nc\n"))
	n := 0
	Chunks(file, IsDay(file), func(Chunk) bool { n++; return n < 2 })
	if n != 2 {
		t.Errorf("%d chunks were handed over after a stop at the second", n)
	}
}

// FuzzChunks holds that every line that says something is in exactly one chunk,
// and that chunks stand in order.
func FuzzChunks(f *testing.F) {
	for _, s := range []string{"sow 1\n  as A\n", "2026-03-02\n sow\n", "\r\n\ra\r", "\ufeff#x\ny", "a\n\n \n  b"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		file := source.New("x.bud", b)
		var got []Chunk
		Chunks(file, IsDay(file), func(c Chunk) bool { got = append(got, c); return true })
		end := file.Start()
		for _, c := range got {
			if c.Span.Start < end || c.Span.End <= c.Span.Start || int(c.Span.End) > len(b) {
				t.Fatalf("chunk %v behind %d in %q", c.Span, end, b)
			}
			if int(c.Line) != file.Line(c.Span.Start) {
				t.Fatalf("chunk at %d in %q says line %d, want %d", c.Span.Start, b, c.Line, file.Line(c.Span.Start))
			}
			end = c.Span.End
		}
		for line := 1; line <= file.Lines(); line++ {
			s := file.LineSpan(line)
			at := int32(indent(b, int(s.Start), int(s.End)))
			if at == s.End || b[at] == '#' || len(bytes.TrimRight(b[at:s.End], " \t\r")) == 0 {
				continue
			}
			if !slices.ContainsFunc(got, func(c Chunk) bool { return c.Span.Contains(at) }) {
				t.Fatalf("line %d of %q is in no chunk", line, b)
			}
		}
	})
}
