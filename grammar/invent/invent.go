// Package invent writes journals of a nursery that never was: plausible, of
// any size, and free of contradictions, to try things on and to measure with.
// The same size and seed give the same journal.
//
// A journal is made of jobs, each of which follows some plants from seed, bench
// or branch to sale and keeps its own book while it writes, so that no count
// can go wrong. Jobs share only the mother trees, places, people and buyers.
package invent

import (
	"bufio"
	"container/heap"
	"fmt"
	"io"
	"math/rand/v2"

	"github.com/budstick/budstick/grammar/fact"
)

// first is the day on which an invented journal begins.
var first, _ = fact.NewDate(2005, 10, 3)

// maxYears bounds the years that a journal spans: a larger one is of a larger
// nursery.
const maxYears = 20

// entriesAYear is what a small nursery writes.
const entriesAYear = 160

// Write writes a journal of so many entries, day lines not counted. It reports
// the first error of w.
func Write(w io.Writer, entries int, seed uint64) error {
	out := bufio.NewWriterSize(w, 1<<16)
	j := &journal{
		out: out, want: entries,
		rnd: rand.New(rand.NewPCG(seed, 0x6b65737472656c)), // any constant will do
	}
	years := min(max(1, entries/entriesAYear), maxYears)
	j.staff(entries / years)
	j.declare()
	between := float64(years*365) / max(1, float64(entries)/entriesAJob)
	for start := 0.0; j.written < j.want; start += between {
		day := first + fact.Date(start)
		j.flush(day)
		j.job(day)
	}
	return out.Flush()
}

// journal is the journal being written.
type journal struct {
	out     *bufio.Writer
	rnd     *rand.Rand
	want    int
	written int
	day     fact.Date // of the last day line
	pending pending
	seq     int // to keep entries of one day in the order in which they came
	jobs    int
	hands   []hand
	mothers int // of each cultivar
}

// A line is an entry that is yet to be written.
type line struct {
	day  fact.Date
	seq  int
	text string
}

// pending is a heap of lines by day.
type pending []line

func (p pending) Len() int { return len(p) }
func (p pending) Less(a, b int) bool {
	return p[a].day < p[b].day || p[a].day == p[b].day && p[a].seq < p[b].seq
}
func (p pending) Swap(a, b int) { p[a], p[b] = p[b], p[a] }
func (p *pending) Push(x any)   { *p = append(*p, x.(line)) }
func (p *pending) Pop() any {
	old := *p
	last := old[len(old)-1]
	*p = old[:len(old)-1]
	return last
}

// on puts an entry in the journal on a day.
func (j *journal) on(day fact.Date, format string, args ...any) {
	j.seq++
	heap.Push(&j.pending, line{day, j.seq, fmt.Sprintf(format, args...)})
}

// flush writes what was done before a day.
func (j *journal) flush(before fact.Date) {
	for len(j.pending) > 0 && j.pending[0].day < before && j.written < j.want {
		l := heap.Pop(&j.pending).(line)
		if l.day != j.day {
			fmt.Fprintf(j.out, "\n%s %s\n", l.day, l.day.Weekday().String()[:3])
			j.day = l.day
		}
		j.put(l.text)
	}
}

func (j *journal) put(text string) {
	if j.written < j.want {
		j.out.WriteString(text)
		j.out.WriteByte('\n')
		j.written++
	}
}

// pick takes one of a list.
func pick[T any](j *journal, list []T) T { return list[j.rnd.IntN(len(list))] }

// between is a whole number from a to b.
func (j *journal) between(a, b int) int { return a + j.rnd.IntN(b-a+1) }

// some is how many of n fare so, each by chance p.
func (j *journal) some(n int, p float64) int {
	k := 0
	for range n {
		if j.rnd.Float64() < p {
			k++
		}
	}
	return k
}

// maybe is true by chance p.
func (j *journal) maybe(p float64) bool { return j.rnd.Float64() < p }

// sway moves a chance up or down, as lots differ by more than luck.
func (j *journal) sway(p float64) float64 {
	return min(0.99, max(0.02, p+0.10*j.rnd.NormFloat64()))
}
