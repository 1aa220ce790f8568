package nursery

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/source"
)

// fuzzHeader is what the examples of the kinds of entry are about.
const fuzzHeader = `variety Amberlight species "Eriobotrya japonica"
variety Redwing species "Punica granatum" seed polyembryonic
variety "Quince BA" species "Cydonia oblonga"
variety Firstfig species "Ficus carica"
tree M7 variety Amberlight
tree M8 variety Amberlight
tree M9 variety Amberlight
tree P2 variety Redwing
tree F2 variety Firstfig
tree L1 variety Amberlight
2025-03-02
buy 200 liners of "Quince BA" as QA25
buy 200 liners of "Quince BA" as QB24
sow 80 seed of Redwing as TR24
cut 60 scions from M7 as W7
cut 60 scions from M8 as WI
graft 48 of QA25 with W7 by cleft as AM26
layer 9 on F2 as FG26
2025-04-02
check AM26: 30 took, 8 failed
check FG26: 5 rooted, 2 failed
`

// FuzzReplay replays whatever comes: it never panics, and the sums always hold.
func FuzzReplay(f *testing.F) {
	for _, k := range entry.All {
		for _, s := range append([]string{k.Pattern}, k.Samples...) {
			f.Add([]byte(fuzzHeader + s + "\n"))
		}
	}
	for _, page := range replayPages(f) {
		f.Add(page.File.Bytes)
	}
	f.Fuzz(holds)
}

// FuzzLines replays the lines of the journals in testdata/replay in any order:
// every two bytes of its input choose one.
func FuzzLines(f *testing.F) {
	var lines []string
	for _, page := range replayPages(f) {
		for line := range strings.Lines(string(page.File.Bytes)) {
			if c := line[0]; c != '#' && c != '\n' {
				lines = append(lines, line)
			}
		}
	}
	f.Add([]byte{0, 1, 0, 2, 0, 3})
	f.Fuzz(func(t *testing.T, choice []byte) {
		var b strings.Builder
		b.WriteString(fuzzHeader)
		for pair := range slices.Chunk(choice[:min(len(choice), 2000)], 2) {
			if len(pair) == 2 {
				b.WriteString(lines[(int(pair[0])<<8|int(pair[1]))%len(lines)])
			}
		}
		holds(t, []byte(b.String()))
	})
}

func replayPages(f *testing.F) []*entry.Page {
	paths, err := filepath.Glob("../../testdata/replay/*.txtar")
	if err != nil {
		f.Fatal(err)
	}
	var pages []*entry.Page
	for _, path := range paths {
		a, err := txtar.ParseFile(path)
		if err != nil {
			f.Fatal(err)
		}
		pages = append(pages, readArchive(a)...)
	}
	return pages
}

// holds holds what is true of every text.
func holds(t *testing.T, text []byte) {
	pages := []*entry.Page{entry.Read(source.New("a.bud", text))}
	n := Replay(pages, 0)
	if err := n.Audit(); err != nil {
		t.Fatal(err)
	}
	recount(t, n)
	state := stateOf(n)
	if again := stateOf(Replay(pages, 0)); again != state {
		t.Fatalf("replayed twice:\n%s\n%s", state, again)
	}
	if all := stateOf(Replay(pages, n.Last)); all != state {
		t.Fatalf("replayed up to the last day, %s:\n%s\n%s", n.Last, state, all)
	}
	if err := Replay(pages, n.Last/2+1).Audit(); err != nil {
		t.Fatal(err)
	}
}
