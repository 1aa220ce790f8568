package format

import (
	"strings"
	"testing"

	"github.com/budstick/budstick/grammar/source"
)

func TestLines(t *testing.T) {
	const text = "cause  frost\n\n2026-03-02\nlose  2 of A to frost\n    note  \"x\"\nlose 2  of A B\nnote  \"end\"\n"
	tests := []struct {
		name        string
		first, last int
		old, fresh  string // none where it is refused
	}{
		{"the first line of an entry", 4, 4, "lose  2 of A to frost\n    note  \"x\"", "lose 2 of A to frost\n  note \"x\""},
		{"the last line of an entry", 5, 5, "lose  2 of A to frost\n    note  \"x\"", "lose 2 of A to frost\n  note \"x\""},
		{"an entry below one with an error", 7, 7, "note  \"end\"", "note \"end\""},
		{"an entry with an error", 6, 6, "", ""},
		{"an entry above one with an error and that one", 5, 6, "", ""},
		{"all", 1, 99, "", ""},
		{"behind the end", 90, 99, "x", "x"},
	}
	for _, test := range tests {
		got, found, ok := Lines(source.New("a.bud", []byte(text)), test.first, test.last)
		if ok != (test.old != "") || ok != (len(found) == 0) {
			t.Errorf("%s: %v, with %d errors", test.name, ok, len(found))
		}
		if want := strings.Replace(text, test.old, test.fresh, 1); ok && string(got) != want {
			t.Errorf("%s: %q, want %q", test.name, got, want)
		}
	}
}

// What is sealed stays as it is, also where its lines are asked for.
func TestLinesAboveASeal(t *testing.T) {
	const text = "cause  frost\nseal sha256 0000000000000000000000000000000000000000000000000000000000000000\ncause  hail\n"
	got, _, ok := Lines(source.New("a.bud", []byte(text)), 1, 3)
	if want := strings.Replace(text, "cause  hail", "cause hail", 1); !ok || string(got) != want {
		t.Errorf("%v, %q", ok, got)
	}
}

// An entry that can't be read and is struck stays as it is, and keeps nothing
// else from being laid out.
func TestStruckStaysAsItIs(t *testing.T) {
	const text = "cause  frost\n2026-03-02\nlose  2  to  # frost\nstrike  line 3 lose 2 because \"no loss\"\n"
	got, found, ok := File(source.New("a.bud", []byte(text)))
	want := strings.NewReplacer("cause  frost", "cause frost", "strike  line", "strike line").Replace(text)
	if !ok || len(found) > 0 || string(got) != want {
		t.Errorf("%v, %v, %q", ok, found, got)
	}
}
