package table

import (
	"fmt"
	"io"
	"slices"
	"strings"
)

// WriteDOT writes the first graph of a report in the DOT language, for programs
// that draw graphs: the same boxes and steps as on the drawing.
func WriteDOT(w io.Writer, d Doc) error {
	if err := d.Check(); err != nil {
		return err
	}
	i := slices.IndexFunc(d.Body, func(b Block) bool { _, ok := b.(Graph); return ok })
	if i < 0 {
		return fmt.Errorf("the report %s has no graph", d.Name)
	}
	p := d.Body[i].(Graph)
	var b strings.Builder
	fmt.Fprintf(&b, "digraph {\n  label=%s;\n  rankdir=LR;\n  node [shape=box];\n", dotText(p.Title))
	for i, n := range p.Nodes {
		words := []string{n.Label}
		if n.Detail != "" {
			words = append(words, n.Detail)
		}
		style := ""
		switch {
		case n.Focus:
			style = ", penwidth=2"
		case n.Outside:
			style = ", style=dashed"
		}
		fmt.Fprintf(&b, "  n%d [label=%s%s];\n", i, dotText(words...), style)
	}
	for _, e := range p.Edges {
		fmt.Fprintf(&b, "  n%d -> n%d [label=%s];\n", e.From, e.To, dotText(p.Lines[e.Line]))
	}
	b.WriteString("}\n")
	_, err := io.WriteString(w, b.String())
	return err
}

// dotText quotes lines of text as one string of DOT, in which a backslash
// begins an escape of its own.
func dotText(lines ...string) string {
	for i, line := range lines {
		lines[i] = strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(visible(line))
	}
	return `"` + strings.Join(lines, `\n`) + `"`
}
