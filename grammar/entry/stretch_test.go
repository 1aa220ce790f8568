package entry

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/source"
)

// told is what a test sees of a page: its entries, what could not be read and
// the findings, all with their places in the whole file.
func told(p *Page, at int32, line int32) []string {
	var out []string
	for i := range p.Entries {
		e := &p.Entries[i]
		out = append(out, fmt.Sprintf("entry %d %d-%d %s %s", e.Line+line, e.Span.Start+at, e.Span.End+at, e.Date, e.Verb))
	}
	for _, b := range p.Broken {
		out = append(out, fmt.Sprintf("broken %d %d-%d %q", b.Line+line, b.Span.Start+at, b.Span.End+at, b.Names))
	}
	for _, f := range p.Findings {
		out = append(out, fmt.Sprintf("finding %d-%d %s", f.Span.Start+at, f.Span.End+at, f.Message))
	}
	slices.Sort(out)
	return out
}

// A file read stretch by stretch is the file read at once, wherever it is cut
// before an entry or a day.
func TestStretches(t *testing.T) {
	lines := []string{
		"budstick 1", "2026-03-02", "2026-03-02 Tue", "2025-01-01", "2026-13-01", "pot AM26 to 3 L", "pot AM26", "sow 12 seed of X as Y",
		"  at bench", "  # and so on", "# a comment", "", "lose 3 of AM26", "seal it",
	}
	rapid.Check(t, func(t *rapid.T) {
		list := rapid.SliceOfN(rapid.SampledFrom(lines), 1, 14).Draw(t, "lines")
		whole := told(Read(source.New("x.bud", []byte(strings.Join(list, "\n")))), 0, 0)
		var parts []string
		var day Day
		at := 0
		for from := 0; from < len(list); {
			to := from + 1
			for to < len(list) && (list[to] == "" || list[to][0] == ' ' || list[to][0] == '#' || rapid.Bool().Draw(t, "on")) {
				to++
			}
			text := strings.Join(list[from:to], "\n") + "\n"
			var page *Page
			page, day = Stretch(source.New("x.bud", []byte(text)), day)
			parts = append(parts, told(page, int32(at), int32(from))...)
			at, from = at+len(text), to
		}
		slices.Sort(parts)
		if !slices.Equal(whole, parts) {
			t.Fatalf("at once:\n%s\nin stretches:\n%s", strings.Join(whole, "\n"), strings.Join(parts, "\n"))
		}
	})
}

// What a stretch says about the one before leads there.
func TestStretchShowsTheLaterDay(t *testing.T) {
	above := source.New("x.bud", []byte("2026-03-02\n"))
	_, day := Stretch(above, Day{})
	page, _ := Stretch(source.New("x.bud", []byte("2026-03-01\n")), day)
	if len(page.Findings) != 1 || len(page.Findings[0].Related) != 1 {
		t.Fatalf("%+v", page.Findings)
	}
	if r := (page.Findings[0].Related[0]); r.File != above || r.Span != (source.Span{Start: 0, End: 10}) || page.Findings[0].Severity != finding.Error {
		t.Errorf("%+v", page.Findings[0])
	}
}
