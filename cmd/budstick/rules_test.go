package main

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"testing"

	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/rule"
	"github.com/budstick/budstick/grammar/screen"
)

// The page of all rules says what explain says.
func TestRulesPage(t *testing.T) {
	compare(t, filepath.Join(root, "grammar", "rule", "RULES.md"), rulesPage())
}

func rulesPage() string {
	var b strings.Builder
	b.WriteString(`# The rules

What ` + "`budstick lint`" + ` asks of a journal. This page is made from the rules themselves by ` + "`go test ./cmd/budstick -update`" + `; each journal on it
is run in a test, and yields what stands below it. ` + "`budstick explain RULE`" + ` shows one of them.

`)
	for severity := finding.Error; severity >= finding.Hint; severity-- {
		var names []string
		for _, r := range rule.All {
			if r.Severity == severity {
				names = append(names, fmt.Sprintf("[%s](#%s)", r.Name, r.Name))
			}
		}
		fmt.Fprintf(&b, "%d %ss: %s.\n\n", len(names), severity, strings.Join(names, ", "))
	}
	paper := &stream{out: nil, width: plainWidth}
	for _, r := range rule.All {
		b.WriteString(ruleSection(paper, r))
	}
	return strings.TrimRight(b.String(), "\n") + "\n"
}

func ruleSection(s *stream, r *rule.Rule) string {
	var b strings.Builder
	fmt.Fprintf(&b, "## %s\n\n%s: %s.\n\n%s\n\n", r.Name, r.Severity, r.Summary, r.Why)
	if len(r.Limits) > 0 {
		fmt.Fprintf(&b, "Changed by `limit %s`.\n", strings.Join(r.Limits, "`, `limit "))
	}
	if r.Silenceable() {
		fmt.Fprintf(&b, "Silenced by `allow %s on NAME because \"…\"`.\n", r.Name)
	}
	fmt.Fprintf(&b, "\n```text\n%s```\n\n```text\n%s```\n\nPut right:\n\n```text\n%s```\n\n",
		outdented(r.Bad), outdented(saidOf(s, r.Bad)), outdented(changedLines(r.Bad, r.Good)))
	return b.String()
}

// outdented shows a text without what can't be shown.
func outdented(text string) string {
	var b strings.Builder
	for line := range strings.SplitSeq(strings.TrimSpace(text), "\n") {
		io.WriteString(&b, strings.TrimRight(screen.Visible(strings.TrimPrefix(line, "    ")), " ")+"\n")
	}
	return b.String()
}
