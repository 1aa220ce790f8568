package nursery

import (
	"fmt"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/source"
)

// TestReplay replays the journals in testdata/replay. Each archive holds one or
// more journals and what must come out:
//
//   - a finding stands as a comment on the line where it must appear,
//     `#! error rule: pattern`, several parted by `#!`; a missing, extra or
//     misplaced one fails. A pattern may be empty;
//   - the file `state` is the book at the end, and `state 2026-03-30` the book at
//     the end of a day: every lot, attempt, tree, limb and bundle of wood, one a
//     line. Blank lines and what follows # are for the reader.
//
// The states are worked out by hand from what the language says. There is no
// flag that writes them.
func TestReplay(t *testing.T) {
	paths, err := filepath.Glob("../../testdata/replay/*.txtar")
	if err != nil || len(paths) == 0 {
		t.Fatal("no journals to replay", err)
	}
	for _, path := range paths {
		t.Run(strings.TrimSuffix(filepath.Base(path), ".txtar"), func(t *testing.T) {
			a, err := txtar.ParseFile(path)
			if err != nil {
				t.Fatal(err)
			}
			replayArchive(t, a)
		})
	}
}

func replayArchive(t *testing.T, a *txtar.Archive) {
	pages := readArchive(a)
	n := Replay(pages, 0)
	compareFindings(t, pages, n.Findings)
	if err := n.Audit(); err != nil {
		t.Error(err)
	}
	states := 0
	for _, f := range a.Files {
		kind, day, _ := strings.Cut(f.Name, " ")
		if kind != "state" {
			continue
		}
		states++
		book := n
		if day != "" {
			until, ok := fact.ParseDate(day)
			if !ok {
				t.Fatalf("%q names no day", f.Name)
			}
			book = Replay(readArchive(a), until)
		}
		if diff := cmp.Diff(bareLines(string(f.Data)), bareLines(stateOf(book))); diff != "" {
			t.Errorf("%s (- by hand, + by the replay)\n%s", f.Name, diff)
		}
	}
	if states == 0 {
		t.Error("there is no state to compare with")
	}
}

func readArchive(a *txtar.Archive) []*entry.Page {
	var pages []*entry.Page
	for _, f := range a.Files {
		if strings.HasSuffix(f.Name, ".bud") {
			pages = append(pages, entry.Read(source.New(f.Name, f.Data)))
		}
	}
	return pages
}

// bareLines are the lines of a state without blanks and remarks.
func bareLines(s string) []string {
	var lines []string
	for line := range strings.Lines(s) {
		line, _, _ = strings.Cut(line, " #")
		if line = strings.TrimSpace(line); line != "" && line[0] != '#' {
			lines = append(lines, line)
		}
	}
	return lines
}

// expected is a finding that a comment asks for.
type expected struct {
	severity, rule string
	message        *regexp.Regexp
}

var expectation = regexp.MustCompile(`^(error|warning|hint) ([a-z-]+)(?::(.*))?$`)

// compareFindings holds the findings of each line against those that its
// comment asks for, in order.
func compareFindings(t *testing.T, pages []*entry.Page, got []finding.Finding) {
	t.Helper()
	byLine := map[string][]finding.Finding{}
	at := func(f *source.File, line int) string { return fmt.Sprintf("%s:%d", f.Path, line) }
	for _, f := range finding.Sort(slices.Clone(got)) {
		where := at(f.File, f.File.Line(f.Span.Start))
		byLine[where] = append(byLine[where], f)
	}
	for _, p := range pages {
		for line := 1; line <= p.File.Lines(); line++ {
			where := at(p.File, line)
			found := byLine[where]
			for _, want := range wanted(t, p.File.Text(p.File.LineSpan(line))) {
				i := slices.IndexFunc(found, func(f finding.Finding) bool {
					return f.Severity.String() == want.severity && f.Rule == want.rule && want.message.MatchString(f.Message)
				})
				if i < 0 {
					t.Errorf("%s: no %s %s: %s", where, want.severity, want.rule, want.message)
					continue
				}
				found = slices.Delete(found, i, i+1)
			}
			for _, f := range found {
				t.Errorf("%s: unexpected %s %s: %s", where, f.Severity, f.Rule, f.Message)
			}
		}
	}
}

func wanted(t *testing.T, line string) []expected {
	t.Helper()
	var list []expected
	for _, part := range strings.Split(line, "#!")[1:] {
		m := expectation.FindStringSubmatch(strings.TrimSpace(part))
		if m == nil {
			t.Fatalf("%q asks for no finding", part)
		}
		list = append(list, expected{m[1], m[2], regexp.MustCompile(strings.TrimSpace(m[3]))})
	}
	return list
}

// stateOf writes the book, one thing a line, leaving out what is zero.
func stateOf(n *Nursery) string {
	var b strings.Builder
	for _, l := range n.Lots {
		fmt.Fprintf(&b, "lot %s: %s\n", l.Name, strings.Join(lotParts(l), "; "))
	}
	for _, x := range n.Batches {
		fmt.Fprintf(&b, "attempts %s: %s\n", x.Lot.Name, strings.Join(batchParts(x), "; "))
	}
	for _, t := range n.Trees {
		fmt.Fprintf(&b, "tree %s: %s\n", t.Name, strings.Join(treeParts(t), "; "))
	}
	for _, l := range n.Limbs {
		fmt.Fprintf(&b, "limb %s: %s of %s\n", l.Name, l.Identity(), l.Tree.Name)
	}
	for _, w := range n.Bundles {
		fmt.Fprintf(&b, "wood %s: %s\n", w.Name, strings.Join(woodParts(w), "; "))
	}
	return b.String()
}

// A term is a count with its name.
type term struct {
	count int32
	name  string
}

// terms writes those that are not zero.
func terms(list ...term) string {
	var parts []string
	for _, t := range list {
		if t.count != 0 {
			parts = append(parts, fmt.Sprintf("%d %s", t.count, t.name))
		}
	}
	if parts == nil {
		return "nothing"
	}
	return strings.Join(parts, ", ")
}

func stack(top Identity, below []Identity, mixed bool) string {
	s := top.String()
	for _, id := range below {
		s += " on " + id.String()
	}
	if mixed {
		s += " or others"
	}
	return s
}

func lotParts(l *Lot) []string {
	out := func(h fact.How) term { return term{l.Out[h], h.String()} }
	parts := []string{
		stack(l.Top, l.Below, l.MixedBelow),
		fmt.Sprintf("entered %d", l.Entered),
		terms(term{l.On[fact.Waiting], "waiting"}, term{l.On[fact.Attached], "attached"}, term{l.On[fact.Living], "living"}, term{l.On[fact.Failed], "failed"},
			out(fact.Sold), out(fact.Given), out(fact.Lost), out(fact.Culled), out(fact.PlantedOut), out(fact.Worked),
			term{l.Gone, "gone to other lots"}, term{l.Unexplained, "unexplained"}),
	}
	switch {
	case l.Limbs:
		parts = append(parts, "limbs of "+l.Mother.Name)
	case l.Mother != nil:
		parts = append(parts, "hangs on "+l.Mother.Name)
	}
	if l.Tries > 0 || l.AtLeast {
		parts = append(parts, "worked "+atLeast(l.Tries, l.AtLeast))
	}
	if l.Beside {
		parts = append(parts, fmt.Sprintf("%d bare", l.Bare))
	}
	if l.LateMixed > 0 {
		parts = append(parts, fmt.Sprintf("%d late mixed", l.LateMixed))
	}
	if l.Returned > 0 {
		parts = append(parts, fmt.Sprintf("%d returned", l.Returned))
	}
	return append(parts, stands(l.Place, l.Pot.String(), l.About)...)
}

func stands(at *Place, pot string, about bool) []string {
	var parts []string
	if at != nil {
		parts = append(parts, "at "+at.Name)
	}
	if pot != "" {
		parts = append(parts, "in "+pot)
	}
	if about {
		parts = append(parts, "about")
	}
	return parts
}

func atLeast(n int, hedged bool) string {
	if hedged {
		return fmt.Sprintf("%d or more", n)
	}
	return fmt.Sprint(n)
}

func batchParts(b *Batch) []string {
	kind := b.Kind.String()
	if b.Kind == GraftBatch || b.Ordinal > 1 {
		kind += " " + atLeast(b.Ordinal, b.AtLeast)
	}
	parts := []string{
		kind, fmt.Sprintf("made %d", b.Made),
		terms(term{b.Waiting(), "waiting"}, term{b.Took, "took"}, term{b.Failed, "failed"}, term{b.Left, "left"}),
	}
	if of := terms(term{b.Dead, "dead"}, term{b.Upper, "upper"}, term{b.Lower, "lower"}, term{b.Early, "early"}, term{b.Late, "late"}); of != "nothing" {
		parts = append(parts, "of which "+of)
	}
	if b.ScionsKnown > 0 {
		parts = append(parts, fmt.Sprintf("scions %d of %d", b.ScionsAlive, b.ScionsKnown))
	}
	if b.Kind == SeedBatch && b.Plants > 0 {
		parts = append(parts, fmt.Sprintf("%d plants", b.Plants))
	}
	if crew := b.Crew(); crew != "" {
		parts = append(parts, "by "+crew)
	}
	return append(parts, stands(nil, "", b.About)...)
}

func treeParts(t *Tree) []string {
	parts := []string{stack(t.Identity(), t.On, false), t.State.String()}
	if t.Gone != 0 {
		parts[1] = t.Gone.String()
	}
	if from := t.From.Label(); from != "" {
		parts = append(parts, "from "+from)
	}
	if t.Wood > 0 {
		parts = append(parts, fmt.Sprintf("%d scions given", t.Wood))
	}
	if k := len(t.Inarched); k > 0 {
		parts = append(parts, fmt.Sprintf("%d inarched", t.Inarched[k-1].Count))
	}
	return append(parts, stands(t.Place, "", false)...)
}

func woodParts(b *Bundle) []string {
	parts := []string{b.Identity().String(), fmt.Sprintf("%d %s", b.Count, b.Noun)}
	left, known := b.Left()
	if known {
		parts = append(parts, fmt.Sprintf("%d left", left))
	} else {
		parts[1] = "unknown " + b.Noun.String()
	}
	if gone := terms(term{b.Used, "used"}, term{b.Sold, "sold"}, term{b.Lost, "lost"}); gone != "nothing" {
		parts = append(parts, gone)
	}
	return append(parts, stands(nil, "", b.About)...)
}
