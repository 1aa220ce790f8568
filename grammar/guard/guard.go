// Package guard compares two versions of a journal file: what was committed
// must still stand, entry by entry, in its place and with its meaning; above
// the last seal, byte by byte. Layout that was tidied below the last seal is
// no change of meaning.
package guard

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/format"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/grammar/syntax"
)

// Rule is the name under which findings of this package are shown.
const Rule = "committed-changed"

// A Verdict is what became of the committed version of a file.
type Verdict struct {
	Findings []finding.Finding // none where everything stands
	Tidied   bool              // layout was changed below the last seal
}

// Compare looks for what was committed (then) in the file as it is (now). The
// file may only have grown at its end.
func Compare(then, now *source.File) Verdict {
	if f, changed := sealedBytes(then, now); changed {
		return Verdict{Findings: []finding.Finding{f}}
	}
	old, fresh := sayings(then), sayings(now)
	for i, was := range old {
		if i < len(fresh) && slices.Equal(was.words, fresh[i].words) {
			continue
		}
		return Verdict{Findings: []finding.Finding{changed(then, now, old, fresh, i)}}
	}
	common := now.Plain(source.Span{End: int32(len(now.Bytes))})
	return Verdict{Tidied: !bytes.HasPrefix(common, bytes.TrimRight(then.Plain(source.Span{End: int32(len(then.Bytes))}), "\n"))}
}

// sealedBytes compares all that stands above the last committed seal.
func sealedBytes(then, now *source.File) (finding.Finding, bool) {
	end := lastSeal(then)
	if end < 0 {
		return finding.Finding{}, false
	}
	sealed := then.Plain(source.Span{End: end})
	text := now.Plain(source.Span{End: int32(len(now.Bytes))})
	if bytes.HasPrefix(text, sealed) {
		return finding.Finding{}, false
	}
	line := 1
	for i := 0; i < min(len(sealed), len(text)) && sealed[i] == text[i]; i++ {
		if sealed[i] == '\n' {
			line++
		}
	}
	line = min(line, now.Lines())
	return finding.Finding{
		File: now, Span: now.LineSpan(line), Severity: finding.Error, Rule: Rule,
		Message: fmt.Sprintf("line %d stands above a seal and has been changed; not even a blank may change there: bring back %q, and put a slip right below the seal with strike",
			line, then.Text(then.LineSpan(min(line, then.Lines())))),
	}, true
}

// lastSeal is where the last seal's line ends, or -1 where there is none.
func lastSeal(f *source.File) int32 {
	end := int32(-1)
	for _, e := range entry.Read(f).Entries {
		if _, ok := e.Effect.(*fact.Seal); ok {
			end = e.Span.End
		}
	}
	return end
}

// A saying is an entry or a day line: its words, free of layout and comments,
// and where it stands.
type saying struct {
	words []string
	span  source.Span // in the file it was read from
}

// sayings reads a file as format would lay it out, so that what format tidies
// is no change.
func sayings(f *source.File) []saying {
	var spans []source.Span
	isDay := syntax.IsDay(f)
	syntax.Chunks(f, isDay, func(c syntax.Chunk) bool {
		spans = append(spans, c.Span)
		return true
	})
	plain := f
	if text, _, ok := format.File(f); ok {
		plain = source.New(f.Path, text)
	}
	var list []saying
	var toks []syntax.Token
	syntax.Chunks(plain, syntax.IsDay(plain), func(c syntax.Chunk) bool {
		toks = syntax.Lex(plain.Bytes, c.Span, toks[:0])
		words := make([]string, len(toks))
		for i, t := range toks {
			words[i] = plain.Text(t.Span)
		}
		list = append(list, saying{words, spans[len(list)]})
		return true
	})
	return list
}

// changed says what became of the committed entry i.
func changed(then, now *source.File, old, fresh []saying, i int) finding.Finding {
	was := oneLine(then.Text(old[i].span))
	f := finding.Finding{File: now, Severity: finding.Error, Rule: Rule}
	switch {
	case i >= len(fresh):
		end := int32(len(now.Bytes))
		f.Span = source.Span{Start: end, End: end}
		f.Message = fmt.Sprintf("the committed entry %q is gone from the end of the file; bring it back, and if it was wrong, strike it", was)
	case i+1 < len(old) && slices.Equal(fresh[i].words, old[i+1].words):
		f.Span = fresh[i].span
		f.Message = fmt.Sprintf("the committed entry %q stood before this one and is gone; bring it back, and if it was wrong, strike it below", was)
	case i+1 < len(fresh) && slices.Equal(fresh[i+1].words, old[i].words):
		f.Span = fresh[i].span
		f.Message = fmt.Sprintf("this was put in above %q, which is committed; a journal grows at its end: write it under the last day, with happened and the day it was", was)
	default:
		f.Span = fresh[i].span
		f.Message = fmt.Sprintf("this was committed as %q; bring that back, and put it right with a strike and a new entry", was)
	}
	return f
}

func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }
