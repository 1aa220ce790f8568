package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/invent"
	"github.com/budstick/budstick/grammar/source"
)

// A record holds the facts of an entry as a program would keep them that had no
// language of its own: one flat JSON object a line.
type record struct {
	Date     string   `json:"date,omitempty"`
	Verb     string   `json:"verb"`
	Count    int32    `json:"count,omitempty"`
	Noun     string   `json:"noun,omitempty"`
	State    string   `json:"state,omitempty"`
	Of       []string `json:"of,omitempty"`
	As       string   `json:"as,omitempty"`
	From     []string `json:"from,omitempty"`
	By       string   `json:"by,omitempty"`
	To       string   `json:"to,omitempty"`
	At       string   `json:"at,omitempty"`
	Money    string   `json:"money,omitempty"`
	Quantity string   `json:"quantity,omitempty"`
	Because  string   `json:"because,omitempty"`
	Workers  []worked `json:"workers,omitempty"`
	Outcomes []judged `json:"outcomes,omitempty"`
}

type worked struct {
	Name    string `json:"name"`
	Minutes string `json:"minutes,omitempty"`
}

type judged struct {
	Count   int32  `json:"count"`
	Verdict string `json:"verdict"`
}

// recordOf keeps what an invented journal's entries say.
func recordOf(e *fact.Entry) record {
	r := record{Date: e.Date.String(), Verb: e.Verb, At: e.At().Text}
	for _, w := range e.Workers() {
		r.Workers = append(r.Workers, worked{w.Worker.Text, w.Minutes.String()})
	}
	switch f := e.Effect.(type) {
	case *fact.Begin:
		r.Count, r.Noun, r.Of, r.As, r.From, r.Money = f.Count.N, f.Noun.String(), texts(f.Of), f.As.Text, texts(f.From...), f.Total.Amount.String()
	case *fact.Layer:
		r.Count, r.Of, r.As, r.By, r.Quantity = f.Count.N, texts(f.On), f.As.Text, f.Hormone.Text, f.Wound.Value.String()
	case *fact.Cut:
		r.Count, r.From, r.As, r.At = f.Count.N, texts(f.From...), f.As.Text, f.Store.Text
	case *fact.Graft:
		r.Count, r.State, r.Of, r.From, r.By, r.As = f.Count.N, f.State.String(), texts(f.Of), texts(f.With...), f.By.Text, f.As.Text
	case *fact.Check:
		r.Of = texts(f.Lot)
		for _, o := range f.Outcomes {
			r.Outcomes = append(r.Outcomes, judged{o.Count.N, o.Verdict.String()})
		}
	case *fact.Turn:
		r.Count, r.Of = f.Count.N, texts(f.Lot)
	case *fact.Pass:
		r.Count, r.Of, r.Quantity, r.To = f.Count.N, texts(f.Lot), f.Pot.Value.String(), f.To.Text
	case *fact.Leave:
		r.Count, r.Noun, r.State, r.Of, r.To, r.Because = f.Count.N, f.Noun.String(), f.State.String(), texts(f.Of), f.To.Text, f.Why.Text
		r.Money, r.Quantity = f.Price.Each.Amount.String(), f.Quantity.Value.String()
	case *fact.Plant:
		r.Count, r.Of = f.Count.N, texts(f.Of)
	case *fact.Pick:
		r.Count, r.From, r.Quantity = f.Fruit.N, texts(f.From...), f.Mass.Value.String()
	case *fact.Stocktake:
		r.Count, r.Of = f.Count.N, texts(f.Lots...)
	case *fact.Spend:
		r.Money, r.To, r.Of = f.Amount.Amount.String(), f.On.Text, texts(f.For...)
	case *fact.Work:
		r.To, r.Of = f.Task.Text, texts(f.For...)
	case *fact.Tend:
		r.Of, r.To = texts(f.Lots...), f.Job.Text
	case *fact.Remark:
		r.Of, r.Because = texts(f.Of...), f.Text.Text
	}
	return r
}

func texts(names ...fact.Name) []string {
	var out []string
	for _, n := range names {
		if n.Given() {
			out = append(out, n.Text)
		}
	}
	return out
}

// ndjson writes the facts of a journal as one JSON object a line.
func ndjson(b *testing.B, journal []byte) []byte {
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	page := entry.Read(source.New("invented.bud", journal))
	for i := range page.Entries {
		if err := enc.Encode(recordOf(&page.Entries[i])); err != nil {
			b.Fatal(err)
		}
	}
	return out.Bytes()
}

func decodeAll(b *testing.B, lines []byte) time.Duration {
	start := time.Now()
	dec := json.NewDecoder(bytes.NewReader(lines))
	var list []record
	for dec.More() {
		var r record
		if err := dec.Decode(&r); err != nil {
			b.Fatal(err)
		}
		list = append(list, r)
	}
	runtime.KeepAlive(list)
	return time.Since(start)
}

// BenchmarkLint lints invented journals from a thousand to a million entries,
// end to end from the file to the last line written, beside encoding/json
// reading the same facts. It prints how many times json's time lint takes, and
// the time for one entry.
func BenchmarkLint(b *testing.B) {
	for _, entries := range []int{1_000, 100_000, 1_000_000} {
		b.Run(fmt.Sprint(entries), func(b *testing.B) {
			var journal bytes.Buffer
			if err := invent.Write(&journal, entries, 1); err != nil {
				b.Fatal(err)
			}
			file := filepath.Join(b.TempDir(), "invented.bud")
			if err := os.WriteFile(file, journal.Bytes(), 0o644); err != nil {
				b.Fatal(err)
			}
			lines := ndjson(b, journal.Bytes())
			var lint, decode time.Duration
			for b.Loop() {
				runtime.GC()
				start := time.Now()
				var out, errs bytes.Buffer
				if code := run([]string{"lint", file}, strings.NewReader(""), &out, &errs, func(string) string { return "" }); code != 0 {
					b.Fatalf("lint ended with %d: %s%s", code, out.String(), errs.String())
				}
				lint += time.Since(start)
				runtime.GC()
				decode += decodeAll(b, lines)
			}
			b.ReportMetric(float64(lint)/float64(decode), "times-json")
			b.ReportMetric(float64(lint.Nanoseconds())/float64(b.N)/float64(entries), "ns/entry")
		})
	}
}
