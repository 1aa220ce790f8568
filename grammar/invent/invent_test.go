package invent

import (
	"bytes"
	"strings"
	"testing"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/grammar/source"
)

func write(t *testing.T, entries int, seed uint64) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, entries, seed); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// An invented journal holds as many entries as were asked for, and nothing in
// it contradicts itself, whatever the size and wherever it is cut off.
func TestNoContradictions(t *testing.T) {
	for _, entries := range []int{1, 7, 60, 161, 999, 4_000, 50_000} {
		for seed := range uint64(3) {
			page := entry.Read(source.New("invented.bud", write(t, entries, seed)))
			n := nursery.Replay([]*entry.Page{page}, 0)
			if len(n.Entries) != entries {
				t.Errorf("%d entries asked for, %d counted (seed %d)", entries, len(n.Entries), seed)
			}
			for _, f := range n.Findings {
				if f.Severity == finding.Error {
					at := f.File.Position(f.Span.Start)
					t.Fatalf("%d entries, seed %d: line %d: %s [%s]", entries, seed, at.Line, f.Message, f.Rule)
				}
			}
			if err := n.Audit(); err != nil {
				t.Errorf("%d entries, seed %d: %v", entries, seed, err)
			}
		}
	}
}

func TestSameSeedSameJournal(t *testing.T) {
	a, b, other := write(t, 3_000, 7), write(t, 3_000, 7), write(t, 3_000, 8)
	if !bytes.Equal(a, b) {
		t.Error("one seed gave two journals")
	}
	if bytes.Equal(a, other) {
		t.Error("two seeds gave one journal")
	}
}

// Days must run forwards, as in a journal that is only ever added to.
func TestDaysRunForwards(t *testing.T) {
	last := ""
	for line := range strings.Lines(string(write(t, 20_000, 3))) {
		if line[0] != '2' {
			continue
		}
		day, _, _ := strings.Cut(line, " ")
		if day <= last {
			t.Fatalf("%s follows %s", day, last)
		}
		last = day
	}
}

type full struct{ left int }

func (f *full) Write(p []byte) (int, error) {
	if f.left -= len(p); f.left < 0 {
		return 0, errFull
	}
	return len(p), nil
}

var errFull = errorString("no space left")

type errorString string

func (e errorString) Error() string { return string(e) }

func TestWriteErrorIsReported(t *testing.T) {
	if err := Write(&full{100_000}, 50_000, 1); err != errFull {
		t.Errorf("a full disk gave %v", err)
	}
}
