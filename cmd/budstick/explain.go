package main

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/grammar/render"
	"github.com/budstick/budstick/grammar/rule"
	"github.com/budstick/budstick/grammar/source"
)

// limitsPage is the word that explains all limits instead of a rule.
const limitsPage = "limits"

var explainCommand = &command{
	name:    "explain",
	summary: "tell what a rule asks and why, with an example and its mend",
	usage:   "[RULE | " + limitsPage + "]",
	long: `Without a rule it lists all of them. The rule of a finding stands in brackets at the end of its first line.

limits lists the rules of thumb that a journal can change with an entry such as: limit old-wood 21 days.`,
	example: "old-wood",
	setup:   func(*pflag.FlagSet) action { return explain },
}

func explain(t *terminal, args []string) (status, error) {
	switch {
	case len(args) == 0:
		return statusDone, t.data.print(listOfRules(t.data))
	case len(args) > 1:
		return statusCannot, usageError{"explain is about one rule at a time", "budstick explain"}
	case args[0] == limitsPage:
		return statusDone, t.data.print(listOfLimits(t.data))
	}
	r, ok := rule.Named(args[0])
	if !ok {
		among := append(rule.Names(), limitsPage)
		return statusCannot, usageError{fmt.Sprintf("there is no rule %s%s", args[0], orMeant(args[0], among)), "budstick explain"}
	}
	if err := t.data.print(rulePage(t.data, r)); err != nil {
		return statusCannot, err
	}
	return statusDone, nil
}

// listOfRules names every rule, the gravest first.
func listOfRules(s *stream) string {
	var b strings.Builder
	for severity := finding.Error; severity >= finding.Hint; severity-- {
		var rows [][2]string
		for _, r := range rule.All {
			if r.Severity == severity {
				rows = append(rows, [2]string{r.Name, r.Summary})
			}
		}
		if len(rows) > 0 {
			fmt.Fprintf(&b, "%s\n%s\n", s.heading(severity.String()+"s"), columns(rows, s.width))
		}
	}
	b.WriteString("budstick explain RULE tells why, with an example.\n")
	return b.String()
}

// rulePage is what there is to say of one rule.
func rulePage(s *stream, r *rule.Rule) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n\n%s\n", s.heading(r.Name+" ("+r.Severity.String()+")"), wrapped(r.Summary, 0, s.width))
	fmt.Fprintf(&b, "\n%s\n%s\n", s.heading("why"), wrapped(r.Why, 0, s.width))
	if len(r.Limits) > 0 {
		fmt.Fprintf(&b, "\n%s\n%s\n", s.heading("changed by"), wrapped("limit "+strings.Join(r.Limits, ", limit "), 0, s.width))
	}
	if r.Silenceable() {
		fmt.Fprintf(&b, "\n%s\n%s\n", s.heading("silenced by"), wrapped("allow "+r.Name+" on NAME because \"…\"", 0, s.width))
	}
	fmt.Fprintf(&b, "\n%s\n%s", s.heading("found in"), example(r.Bad))
	fmt.Fprintf(&b, "\n%s\n%s", s.heading("which says"), saidOf(s, r.Bad))
	fmt.Fprintf(&b, "\n%s\n%s", s.heading("put right"), example(changedLines(r.Bad, r.Good)))
	return b.String()
}

// example shows a journal, indented.
func example(text string) string {
	var b strings.Builder
	for line := range strings.SplitSeq(strings.TrimSpace(text), "\n") {
		b.WriteString(strings.TrimRight("    "+line, " ") + "\n")
	}
	return b.String()
}

// changedLines is what of the lines of now differs from before, with an ellipsis
// for those at both ends that don't.
func changedLines(before, now string) string {
	a, b := strings.Split(strings.TrimSpace(before), "\n"), strings.Split(strings.TrimSpace(now), "\n")
	head, tail := 0, 0
	for head < min(len(a), len(b)) && a[head] == b[head] {
		head++
	}
	for tail < min(len(a), len(b))-head && a[len(a)-1-tail] == b[len(b)-1-tail] {
		tail++
	}
	lines := b[head : len(b)-tail]
	if head > 0 {
		lines = append([]string{"…"}, lines...)
	}
	if tail > 0 {
		lines = append(slices.Clone(lines), "…")
	}
	return strings.Join(lines, "\n")
}

// saidOf is what the linter says of an example.
func saidOf(s *stream, text string) string {
	page := entry.Read(source.New("example"+suffix, []byte(text)))
	found := rule.Check(nursery.Replay([]*entry.Page{page}, 0))
	var b strings.Builder
	form := render.All[0]
	// Writing to memory does not fail.
	_ = form.Write(&b, render.Result{Findings: found}, render.Options{Width: s.width, Colour: s.colour})
	return b.String()
}

// listOfLimits lists the rules of thumb that a journal can change.
func listOfLimits(s *stream) string {
	known := nursery.KnownLimits()
	var rows [][2]string
	empty := nursery.Replay(nil, 0)
	for _, name := range slices.Sorted(maps.Keys(known)) {
		said := "in " + string(known[name])
		if l, ok := empty.Limit(name, 1); ok {
			said = fmt.Sprintf("%s (%s)", l, l.Mark)
		}
		rows = append(rows, [2]string{name, said})
	}
	return columns(rows, s.width) + "\nA journal changes one with an entry such as: limit old-wood 21 days\n"
}
