package render

import (
	"bufio"
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/screen"
)

// commands are the workflow commands for the severities.
var commands = map[finding.Severity]string{finding.Error: "error", finding.Warning: "warning", finding.Hint: "notice"}

// writeGitHub writes workflow commands ("Workflow commands for GitHub Actions"
// in GitHub's documentation). The worst come first, since only the first few
// are shown; columns are given where they make sense to it, within one line.
func writeGitHub(w io.Writer, r Result, _ Options) error {
	worstFirst := slices.SortedStableFunc(r.placed(), func(a, b placed) int { return cmp.Compare(b.Severity, a.Severity) })
	out := bufio.NewWriter(w)
	for _, f := range worstFirst {
		fmt.Fprintf(out, "::%s file=%s,line=%d,endLine=%d", commands[f.Severity], property(f.File.Path), f.start.Line, f.end.Line)
		if f.start.Line == f.end.Line {
			fmt.Fprintf(out, ",col=%d,endColumn=%d", f.start.Column, f.end.Column)
		}
		text := f.Message
		if f.Mend != nil {
			text += "\nwrite instead: " + f.Mend.Text
		}
		fmt.Fprintf(out, ",title=%s::%s\n", property(f.Rule), commandText(text))
	}
	return out.Flush()
}

// commandText escapes the text of a workflow command. Lines are the only
// control characters that it may hold.
func commandText(s string) string {
	lines := strings.Split(s, "\n")
	for i := range lines {
		lines[i] = strings.ReplaceAll(screen.Visible(lines[i]), "%", "%25")
	}
	return strings.Join(lines, "%0A")
}

// property escapes a property of a workflow command.
func property(s string) string {
	return strings.NewReplacer("%", "%25", ":", "%3A", ",", "%2C").Replace(screen.Visible(s))
}
