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
		Message: fmt.Sprintf("line %d stands above a seal and has been changed; not even a blank may change there; put a slip right below the seal with strike, and bring back: %s",
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
	syntax.Chunks(f, syntax.IsDay(f), func(c syntax.Chunk) bool {
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

// changed says what became of the committed entry i. What was committed ends the
// message, so that it can be copied as it was.
func changed(then, now *source.File, old, fresh []saying, i int) finding.Finding {
	f := finding.Finding{File: now, Severity: finding.Error, Rule: Rule}
	if i >= len(fresh) {
		f.Span = endOf(now)
		f.Message = "a committed entry is gone from the end of the file; if it was wrong, strike it below, and bring it back"
	} else {
		f.Span = fresh[i].span
		comesLater, stoodLater := stands(fresh[i+1:], old[i]), stands(old[i+1:], fresh[i])
		switch {
		case comesLater && stoodLater:
			f.Message = "committed entries have changed places; bring them back in their order; here stood"
		case stoodLater:
			f.Message = "a committed entry stood above this one and is gone; if it was wrong, strike it below, and bring it back"
		case comesLater:
			f.Message = "this was put in above what is committed; a journal grows at its end: write it under the last day, with happened and the day it was; what is committed here"
		default:
			f.Message = "this has been changed since it was committed; put it right with a strike and a new entry, and bring back"
		}
	}
	f.Message += ": " + oneLine(then.Text(old[i].span))
	return f
}

// stands reports whether a saying is among others.
func stands(among []saying, s saying) bool {
	return slices.ContainsFunc(among, func(x saying) bool { return slices.Equal(x.words, s.words) })
}

// Lost looks for the entries of another branch (theirs) in a file in which it has
// been joined with this one. They may stand anywhere below, and may have got a
// happened with the day it was, since days never go back.
func Lost(theirs, now *source.File) []finding.Finding {
	var list []finding.Finding
	fresh := sayings(now)
	for _, was := range sayings(theirs) {
		if isDay(theirs, was) {
			continue
		}
		i := slices.IndexFunc(fresh, func(s saying) bool {
			n := len(was.words)
			return len(s.words) >= n && slices.Equal(s.words[:n], was.words) && (len(s.words) == n || s.words[n] == "happened")
		})
		if i >= 0 {
			fresh = slices.Delete(fresh, i, i+1)
			continue
		}
		list = append(list, finding.Finding{
			File: now, Span: endOf(now), Severity: finding.Error, Rule: Rule,
			Message: "an entry of the branch that is merged is not here; write it under its day, or under the last one with happened and the day it was: " + oneLine(theirs.Text(was.span)),
		})
	}
	return list
}

func isDay(f *source.File, s saying) bool { return syntax.IsDay(f)(s.span) }

// endOf is the place behind all text.
func endOf(f *source.File) source.Span {
	end := int32(len(f.Bytes))
	return source.Span{Start: end, End: end}
}

func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }
