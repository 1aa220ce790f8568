package entry

import (
	"strings"
	"testing"

	"github.com/budstick/budstick/grammar/source"
)

// A journal whose lines end in carriage returns alone is put right by its mends,
// and no word of it grows into another.
func TestOldLineEnds(t *testing.T) {
	want := "variety Amberlight species \"Eriobotrya japonica\"\n2026-03-02\nnote Amberlight \"in bloom\"\n  at terrace-3\n"
	text := strings.ReplaceAll(strings.TrimSuffix(want, "\n"), "\n", "\r") + "\n"
	page := Read(source.New("old.bud", []byte(text)))
	got := []byte(text)
	for _, f := range page.Findings {
		if f.Rule != "sign" || f.Mend == nil || f.Mend.Span.Len() != len(f.Mend.Text) {
			t.Errorf("%s: %s", f.Rule, f.Message)
			continue
		}
		copy(got[f.Mend.Span.Start:], f.Mend.Text)
	}
	if string(got) != want {
		t.Errorf("mended:\n%q\nwant:\n%q", got, want)
	}
}
