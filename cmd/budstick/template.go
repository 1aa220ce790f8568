package main

import (
	"fmt"
	"strings"

	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/grammar/syntax"
)

// A template is one line of an entry with {columns} in place of what the rows
// say. What stands in [brackets] is left out where one of its columns is empty
// or 0, with a comma that then has nothing on one of its sides. A column in
// quotes is a text.
type template []part

// A part of a template is words that stand in every entry, a column, or
// something that may be left out.
type part struct {
	words    string
	column   string
	quoted   bool // the column stands in quotes
	optional template
}

// readTemplate reads a line. What follows # outside of quotes and braces is a
// comment.
func readTemplate(line string) (template, error) {
	r := templateReader{rest: line}
	t, err := r.parts(false)
	if err == nil && r.quoted {
		err = fmt.Errorf("a quote opens here and does not close")
	}
	return t, err
}

type templateReader struct {
	rest   string
	quoted bool
}

// parts reads up to the end of the line or, within brackets, their end.
func (r *templateReader) parts(inside bool) (template, error) {
	var t template
	for {
		at := strings.IndexAny(r.rest, `{}[]"#`)
		if at < 0 {
			at = len(r.rest)
		}
		sign := byte(0)
		words := r.rest[:at]
		if at < len(r.rest) {
			sign, r.rest = r.rest[at], r.rest[at+1:]
		} else {
			r.rest = ""
		}
		if r.quoted && strings.IndexByte("[]#", sign) >= 0 && sign != 0 || sign == '"' {
			words += string(sign) // within a text they are signs like any other
		}
		if words != "" {
			t = append(t, part{words: words})
		}
		switch {
		case sign == '"':
			r.quoted = !r.quoted
		case sign == 0, sign == '#' && !r.quoted:
			r.rest = ""
			if inside {
				return nil, fmt.Errorf("what may be left out stands between brackets, such as [for {Price}]")
			}
			return t, nil
		case sign == '{':
			name, after, ok := strings.Cut(r.rest, "}")
			if name = strings.TrimSpace(name); !ok || name == "" {
				return nil, fmt.Errorf("a column stands between braces, such as {Stock}")
			}
			r.rest = after
			t = append(t, part{column: name, quoted: r.quoted})
		case r.quoted && sign != '}':
		case sign == '[' && !inside:
			within, err := r.parts(true)
			if err != nil {
				return nil, err
			}
			t = append(t, part{optional: within})
		case sign == ']' && inside:
			return t, nil
		default:
			return nil, fmt.Errorf("%c stands here without its partner", sign)
		}
	}
}

// columns calls f with each column that is named.
func (t template) columns(f func(string)) {
	for _, p := range t {
		if p.column != "" {
			f(p.column)
		}
		p.optional.columns(f)
	}
}

// gone stands, while a line is made, where something was left out.
const gone = "\x00"

// fill writes the line for a row. It gives the columns that are empty and must
// not be.
func (t template) fill(of func(column string) string) (line string, missing []string) {
	var b strings.Builder
	for _, p := range t {
		switch {
		case p.optional != nil:
			text, empty := p.optional.fill(of)
			if len(empty) > 0 || p.optional.saysNothing(of) {
				text = gone
			}
			b.WriteString(text)
		case p.column != "":
			cell := of(p.column)
			if cell == "" {
				missing = append(missing, p.column)
				continue
			}
			b.WriteString(spellCell(cell, p.quoted))
		default:
			b.WriteString(p.words)
		}
	}
	return withoutGone(b.String()), missing
}

// saysNothing reports whether one of the columns is 0.
func (t template) saysNothing(of func(string) string) bool {
	zero := false
	t.columns(func(column string) { zero = zero || of(column) == "0" })
	return zero
}

// withoutGone takes out the marks of what was left out, each with a comma beside
// it.
func withoutGone(s string) string {
	for {
		at := strings.Index(s, gone)
		if at < 0 {
			return s
		}
		before, after := s[:at], s[at+len(gone):]
		if next, ok := strings.CutPrefix(strings.TrimLeft(after, " "), ","); ok {
			after = next
		} else if next, ok := strings.CutSuffix(strings.TrimRight(before, " "), ","); ok {
			before = next
		}
		s = before + after
	}
}

// spellCell writes what a cell says so that it is a text within quotes and,
// outside of them, a number, a date or a name.
func spellCell(cell string, quoted bool) string {
	switch {
	case quoted:
		q := syntax.Quote(cell)
		return q[1 : len(q)-1]
	case isNumber(cell):
		return cell
	}
	return syntax.Spell(cell)
}

// isNumber reports whether a cell is made of numbers, dates, units and money,
// maybe with about before it, and of nothing else.
func isNumber(cell string) bool {
	end := 0
	toks := syntax.Lex([]byte(cell), source.Span{End: int32(len(cell))}, nil)
	for i, tok := range toks {
		switch tok.Kind {
		case syntax.Int, syntax.Decimal, syntax.Date, syntax.Month, syntax.Unit, syntax.Currency:
		case syntax.Reserved:
			if i > 0 || !strings.EqualFold(cell[tok.Span.Start:tok.Span.End], "about") {
				return false
			}
		default:
			return false
		}
		if strings.Trim(cell[end:tok.Span.Start], " ") != "" {
			return false
		}
		end = int(tok.Span.End)
	}
	return end == len(cell) && end > 0
}
