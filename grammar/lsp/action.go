package lsp

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/rule"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/grammar/syntax"
)

const kindQuickFix = "quickfix"

type codeActionParams struct {
	documentRange
	Context struct {
		Only []string `json:"only"`
	} `json:"context"`
}

type action struct {
	Title       string        `json:"title"`
	Kind        string        `json:"kind"`
	Diagnostics []diagnostic  `json:"diagnostics"`
	IsPreferred bool          `json:"isPreferred,omitempty"`
	Edit        workspaceEdit `json:"edit"`
}

// codeAction offers what can be done about the findings at a range: to write
// what the finding says, or to allow it. Nothing is offered that would change
// what is sealed.
func codeAction(ctx context.Context, d document, p codeActionParams) (any, error) {
	list := []action{}
	if len(p.Context.Only) > 0 && !slices.Contains(p.Context.Only, kindQuickFix) {
		return list, nil
	}
	start, ok1 := d.offset(p.Range.Start, d.encoding)
	end, ok2 := d.offset(p.Range.End, d.encoding)
	if !ok1 || !ok2 || end < start {
		return nil, invalid("the range is no part of the text")
	}
	known := d.known
	if !known.whole {
		var err error
		if known, err = within(ctx, d.journal.checked); err != nil {
			return nil, err
		}
	}
	sealed := d.sealedTo()
	for _, f := range d.current(known.found[d.path]) {
		if f.Span.Start > end || f.Span.End < start {
			continue
		}
		if f.Mend != nil && f.Mend.Span.Start >= sealed {
			one := d.action(f, titleOf(f), f.Mend.Span, f.Mend.Text)
			one.IsPreferred = true
			list = append(list, one)
		}
		if line, ok := allowance(f); ok {
			list = append(list, d.action(f, "allow it, at the end of the file: "+line, source.Span{Start: d.len(), End: d.len()}, d.lastLine()+line+d.eol()))
		}
	}
	return list, nil
}

// titleOf says what a mend does.
func titleOf(f finding.Finding) string {
	text := strings.TrimSpace(f.Mend.Text)
	switch {
	case f.Mend.Text == "":
		return "take it out"
	case text == "":
		return "put it on a line of its own, or indent it"
	}
	return "write " + text
}

func (d document) action(f finding.Finding, title string, at source.Span, text string) action {
	e := edits{}
	e.add(d.file, textEdit{d.rangeOf(at, d.encoding), text})
	return action{
		Title: title, Kind: kindQuickFix, Edit: d.workspaceEdit(e),
		Diagnostics: []diagnostic{d.diagnosticOf(d.journal, d.text, f)},
	}
}

// allowance is the entry that allows a finding, with room for the reason.
func allowance(f finding.Finding) (string, bool) {
	r, ok := rule.Named(f.Rule)
	if !ok || !r.Silenceable() || len(f.About) == 0 {
		return "", false
	}
	return fmt.Sprintf(`allow %s on %s because "…"`, f.Rule, syntax.Spell(f.About[0])), true
}

// lastLine ends the last line of the text, where it has no end.
func (d document) lastLine() string {
	if n := d.len(); n > 0 && d.bytes(n-1, n)[0] != '\n' {
		return d.eol()
	}
	return ""
}

// eol is how lines end in the text: as the first of them does.
func (t *text) eol() string {
	first := t.blocks[0].file.LineSpan(1)
	if strings.HasPrefix(string(t.blocks[0].file.Bytes[first.End:]), "\r\n") {
		return "\r\n"
	}
	return "\n"
}
