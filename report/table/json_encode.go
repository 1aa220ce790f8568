package table

import (
	"bytes"
	"fmt"
	"unicode/utf16"

	"github.com/budstick/budstick/grammar/screen"
)

// The values of JSON, with fields in a fixed order.
type (
	object   []field
	document []field // an object that has a line for every field
	field    struct {
		name  string
		value any
	}
	array []any
	raw   string // written as it is: numbers and null
)

const null = raw("null")

// encode writes a value. Whatever holds a list of objects gets a line for each
// element, so that two reports can be compared line by line; the rest stays on
// one line.
func encode(b *bytes.Buffer, v any, indent string) {
	switch v := v.(type) {
	case raw:
		b.WriteString(string(v))
	case string:
		quote(b, v)
	case document:
		encodeFields(b, v, indent, false)
	case object:
		encodeFields(b, v, indent, flat(v))
	case array:
		enclose(b, "[]", len(v), indent, flat(v), func(i int, indent string) { encode(b, v[i], indent) })
	}
}

func encodeFields(b *bytes.Buffer, fields []field, indent string, flat bool) {
	enclose(b, "{}", len(fields), indent, flat, func(i int, indent string) {
		quote(b, fields[i].name)
		b.WriteString(": ")
		encode(b, fields[i].value, indent)
	})
}

// enclose writes n items between two brackets, on one line or a line each.
func enclose(b *bytes.Buffer, brackets string, n int, indent string, flat bool, item func(i int, indent string)) {
	inner, first, between, last := indent+"  ", "\n"+indent+"  ", ",\n"+indent+"  ", "\n"+indent
	if flat {
		inner, first, between, last = indent, "", ", ", ""
	}
	b.WriteByte(brackets[0])
	for i := range n {
		if i == 0 {
			b.WriteString(first)
		} else {
			b.WriteString(between)
		}
		item(i, inner)
	}
	b.WriteString(last)
	b.WriteByte(brackets[1])
}

// flat reports whether a value is written on one line.
func flat(v any) bool {
	switch v := v.(type) {
	case document:
		return false
	case object:
		for _, f := range v {
			if !flat(f.value) {
				return false
			}
		}
	case array:
		for _, element := range v {
			if _, isText := element.(string); isText {
				continue
			}
			if _, isRaw := element.(raw); !isRaw {
				return false
			}
		}
	}
	return true
}

// quote writes a JSON string. Letters and signs stay as they are; whatever does
// not print, or steers a terminal, is escaped, so that the text comes back
// exactly and the raw output is safe to look at.
func quote(b *bytes.Buffer, s string) {
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case ' ' <= r && r <= '~': // most of a journal, and quick to tell
			b.WriteByte(byte(r))
		case r == '\n':
			b.WriteString(`\n`)
		case r == '\t':
			b.WriteString(`\t`)
		case screen.Steers(r) && r > 0xffff:
			high, low := utf16.EncodeRune(r)
			fmt.Fprintf(b, `\u%04x\u%04x`, high, low)
		case screen.Steers(r):
			fmt.Fprintf(b, `\u%04x`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
}
