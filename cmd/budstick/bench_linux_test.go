package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/budstick/budstick/grammar/invent"
)

// BenchmarkReports runs the program on a journal of a million entries and a
// hundred thousand trees, as a grower would: lint and then a report, in turn. It
// prints how many times lint's time the report takes, and the most memory that it
// held. Give it -benchtime 5x; -bench Reports/profit runs one of them.
func BenchmarkReports(b *testing.B) {
	program := filepath.Join(b.TempDir(), "budstick")
	if out, err := exec.Command("go", "build", "-o", program, ".").CombinedOutput(); err != nil {
		b.Fatalf("%v: %s", err, out)
	}
	journal := filepath.Join(b.TempDir(), "invented.bud")
	lot, err := inventOrchard(journal)
	if err != nil {
		b.Fatal(err)
	}
	for _, ask := range [][]string{
		{"lineage", lot}, {"trace", "L1"}, {"take", "--by", "method,worker"}, {"stock"}, {"due"}, {"survival"},
		{"profit"}, {"owed"}, {"season"}, {"season", "--as", "html"}, {"export", "--output", filepath.Join(b.TempDir(), "tables")},
	} {
		b.Run(strings.ReplaceAll(strings.Join(ask[:len(ask):len(ask)], " "), b.TempDir(), ""), func(b *testing.B) {
			var lint, report time.Duration
			var most int64
			for b.Loop() {
				spent, _ := timed(b, program, "lint", journal)
				lint += spent
				spent, memory := timed(b, program, append(ask[:len(ask):len(ask)], journal)...)
				report, most = report+spent, max(most, memory)
			}
			b.ReportMetric(float64(report)/float64(lint), "times-lint")
			b.ReportMetric(float64(most)/(1<<20), "MB")
			b.ReportMetric(0, "ns/op")
		})
	}
}

// inventOrchard writes a journal with trees that stood before it, and names a lot
// late in it.
func inventOrchard(file string) (lot string, err error) {
	var journal bytes.Buffer
	if err := invent.Write(&journal, 1_000_000, 1); err != nil {
		return "", err
	}
	at := bytes.Index(journal.Bytes(), []byte("\ntree ")) + 1
	out := bytes.NewBuffer(bytes.Clone(journal.Bytes()[:at]))
	for i := range 100_000 {
		fmt.Fprintf(out, "tree X%d variety Amberlight planted 1992 at orchard\n", i)
	}
	out.Write(journal.Bytes()[at:])
	for line := range strings.Lines(journal.String()) {
		if rest, ok := strings.CutPrefix(line, "graft "); ok {
			_, rest, _ = strings.Cut(rest, " as ")
			lot = strings.Fields(rest)[0]
		}
	}
	return lot, os.WriteFile(file, out.Bytes(), 0o644)
}

// timed runs the program: how long it took, and the most bytes that it held.
func timed(b *testing.B, program string, args ...string) (time.Duration, int64) {
	b.Helper()
	cmd := exec.Command(program, args...)
	var errs bytes.Buffer
	cmd.Stderr = &errs
	start := time.Now()
	if err := cmd.Run(); err != nil {
		b.Fatalf("%v: %v: %s", args, err, errs.String())
	}
	return time.Since(start), cmd.ProcessState.SysUsage().(*syscall.Rusage).Maxrss << 10
}
