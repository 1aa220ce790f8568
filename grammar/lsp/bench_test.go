package lsp

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/invent"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/grammar/rule"
	"github.com/budstick/budstick/grammar/source"
)

// BenchmarkKeystroke types at random places of a journal of 100,000 entries,
// over real pipes, one keystroke after the other is answered in full. It prints
//
//	first   until the findings of reading arrive, with all that was known before
//	whole   until the journal is replayed, all rules are asked and all is told
//	lint    a full lint of the same file, from its bytes to the last finding
//
// each at the median (p50) and the 95th percentile (p95), in milliseconds, and
// the most memory that the process ever held, the client's part included. One
// round of the benchmark is one keystroke; run it with -benchtime 1000x.
func BenchmarkKeystroke(b *testing.B) {
	var journal bytes.Buffer
	if err := invent.Write(&journal, 100_000, 1); err != nil {
		b.Fatal(err)
	}
	folder := b.TempDir()
	path := filepath.Join(folder, "invented.bud")
	if err := os.WriteFile(path, journal.Bytes(), 0o644); err != nil {
		b.Fatal(err)
	}
	ty := typist{client: newClient(b, diskOptions()), rnd: rand.New(rand.NewPCG(1, 2)), uri: uriOfPath(path), text: newText(path, journal.Bytes())}
	ty.begin(folder)
	ty.open(ty.uri, journal.String(), 1)
	ty.settle()
	var first, whole []time.Duration
	for b.Loop() {
		f, w := ty.stroke(b)
		first, whole = append(first, f), append(whole, w)
	}
	memory := peak()
	report(b, "first", first)
	report(b, "whole", whole)
	report(b, "lint", lintTimes(path, journal.Bytes()))
	b.ReportMetric(float64(memory)/(1<<20), "MB")
	b.ReportMetric(0, "ns/op")
}

func report(b *testing.B, name string, list []time.Duration) {
	slices.Sort(list)
	at := func(part float64) float64 {
		return list[min(int(part*float64(len(list))), len(list)-1)].Seconds() * 1000
	}
	b.ReportMetric(at(0.5), name+"-p50-ms")
	b.ReportMetric(at(0.95), name+"-p95-ms")
}

// lintTimes is how long some full lints take.
func lintTimes(path string, journal []byte) []time.Duration {
	var list []time.Duration
	for range 11 {
		start := time.Now()
		page := entry.Read(source.New(path, journal))
		rule.Check(nursery.Replay([]*entry.Page{page}, 0))
		list = append(list, time.Since(start))
	}
	return list
}

// peak is the most memory that the process ever held, in bytes (Linux).
func peak() int64 {
	status, _ := os.ReadFile("/proc/self/status")
	for line := range strings.Lines(string(status)) {
		if rest, ok := strings.CutPrefix(line, "VmHWM:"); ok {
			kB, _ := strconv.ParseInt(strings.Fields(rest)[0], 10, 64)
			return kB << 10
		}
	}
	return 0
}

// A typist types.
type typist struct {
	*client
	rnd     *rand.Rand
	uri     string
	text    *text
	version int
	left    []stroke // what is still to be typed at one place
}

type stroke struct {
	at   int32
	over int32
	with string
}

// think chooses a place and what to type there: a new entry, letter by letter,
// or a slip in an old one and its mending.
func (ty *typist) think() {
	at := ty.rnd.Int32N(ty.text.len())
	at = ty.text.entryBehind(at)
	if ty.rnd.IntN(2) == 0 {
		line := pick2(ty.rnd, []string{"note \"fog\"\n", "lose 1 of LG7 to frost\n", "work weeding worker Ru 1 h\n"})
		ty.left = append(ty.left, stroke{at, 0, "\n"})
		for i := range len(line) - 1 {
			ty.left = append(ty.left, stroke{at + int32(i), 0, line[i : i+1]})
		}
		return
	}
	for range 3 {
		where := at + ty.rnd.Int32N(12)
		ty.left = append(ty.left, stroke{where, 0, "7"}, stroke{where, 1, ""})
	}
}

func pick2[T any](rnd *rand.Rand, list []T) T { return list[rnd.IntN(len(list))] }

// stroke types once, and says how long the answers took to come.
func (ty *typist) stroke(b *testing.B) (first, whole time.Duration) {
	if len(ty.left) == 0 {
		ty.think()
	}
	next := ty.left[0]
	ty.left = ty.left[1:]
	next.at = min(next.at, ty.text.len()-1)
	where := ty.text.rangeOf(source.Span{Start: next.at, End: next.at + next.over}, source.UTF16)
	ty.version++
	version := 1 + ty.version
	message := toJSON(object{"textDocument": object{"uri": ty.uri, "version": version}, "contentChanges": []object{{"range": where, "text": next.with}}})
	start := time.Now()
	ty.send(fmt.Sprintf(`{"jsonrpc":"2.0","method":"textDocument/didChange","params":%s}`, message))
	ty.wait(func() bool { return ty.version1() == version })
	first = time.Since(start)
	ty.settle()
	whole = time.Since(start)
	ty.text = ty.text.edit(next.at, next.at+next.over, next.with)
	if ty.version%50 == 0 {
		ty.verify(b)
	}
	return first, whole
}

// version1 is the version of the text that was told of last.
func (ty *typist) version1() int {
	if v := ty.found[ty.uri].Version; v != nil {
		return *v
	}
	return 0
}

// verify compares what was told with a fresh lint.
func (ty *typist) verify(b *testing.B) {
	b.Helper()
	b.StopTimer()
	path := pathOfURI(ty.uri)
	page := entry.Read(source.New(path, ty.text.bytes(0, ty.text.len())))
	want := finding.Sort(rule.Check(nursery.Replay([]*entry.Page{page}, 0)))
	if got := len(ty.found[ty.uri].Diagnostics); got != min(len(want), mostShown) {
		b.Fatalf("%d findings told, and %d linted", got, len(want))
	}
	b.StartTimer()
}
