package lsp

import (
	"context"
	"slices"
	"strings"

	"github.com/budstick/budstick/grammar/entry"
)

type hovered struct {
	Contents *markupContent `json:"contents"`
	Range    span           `json:"range"`
}

// hover tells what stands at the cursor: of a verb what it means, of a name
// what is known of what has it, as it is after the entry.
func hover(ctx context.Context, d document, p documentPosition) (any, error) {
	c, err := d.cursorAt(p.Position)
	if err != nil || c.on < 0 {
		return nil, err
	}
	at := c.toks[c.on].Span
	answer := func(text string) (any, error) {
		if text == "" {
			return nil, nil
		}
		return hovered{d.markup(text), d.rangeOf(shifted(at, c.start), d.encoding)}, nil
	}
	if kind, ok := entry.Named(c.block.file.Text(at)); ok && c.on == 0 {
		return answer(kindPage(kind))
	}
	m, ok := c.mention()
	if !ok {
		return nil, nil
	}
	r, err := within(ctx, d.journal.replayed)
	if err != nil {
		return nil, err
	}
	here := d.spotAt(c.start + c.toks[0].Span.Start)
	here.line++ // behind this entry
	return answer(r.describe(r.target(m), here))
}

// kindPage is what a kind of entry means.
func kindPage(k *entry.Kind) string {
	return "**" + k.Verb + "**: " + k.Summary + "\n\n" + k.Text + "\n\n```budstick\n" + strings.Join(k.Sentences(), "\n") + "\n```"
}

// markup is text in Markdown, or as plain text where the editor shows no other.
func (s *server) markup(text string) *markupContent {
	formats := s.client.TextDocument.Hover.ContentFormat
	if slices.Contains(formats, "markdown") {
		return &markupContent{"markdown", text}
	}
	return &markupContent{"plaintext", plainText(text)}
}

// plainText takes the marks out of the little Markdown that is written here.
func plainText(text string) string {
	var lines []string
	for line := range strings.SplitSeq(text, "\n") {
		if !strings.HasPrefix(line, "```") {
			lines = append(lines, unescapeMarkdown(strings.ReplaceAll(line, "**", "")))
		}
	}
	return strings.Join(lines, "\n")
}

// marks are the signs that mean something in Markdown.
const marks = "\\`*_{}[]<>#|~"

// escaped is a name as Markdown shows it as it is.
func escaped(name string) string {
	var b strings.Builder
	for _, r := range name {
		if strings.ContainsRune(marks, r) {
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	return b.String()
}

func unescapeMarkdown(line string) string {
	var b strings.Builder
	for i := 0; i < len(line); i++ {
		if line[i] == '\\' && i+1 < len(line) && strings.IndexByte(marks, line[i+1]) >= 0 {
			i++
		}
		b.WriteByte(line[i])
	}
	return b.String()
}
