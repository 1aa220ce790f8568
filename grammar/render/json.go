package render

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"unicode/utf16"
	"unicode/utf8"

	"github.com/budstick/budstick/grammar/screen"
	"github.com/budstick/budstick/grammar/source"
)

// jsonFinding is the documented shape of a finding; fields may be added and are
// never renamed. Lines and columns count from 1, columns count characters, and
// an end is the place behind the last character.
type jsonFinding struct {
	jsonPlace
	Severity string        `json:"severity"`
	Rule     string        `json:"rule"`
	Message  string        `json:"message"`
	Mend     *string       `json:"mend"`    // text to put in place of MendAt
	MendAt   *jsonPlace    `json:"mend_at"` // null where there is no mend
	Related  []jsonRelated `json:"related"`
}

type jsonPlace struct {
	File      string `json:"file"`
	Line      int    `json:"line"`
	Column    int    `json:"column"`
	EndLine   int    `json:"end_line"`
	EndColumn int    `json:"end_column"`
}

type jsonRelated struct {
	jsonPlace
	Message string `json:"message"`
}

func newPlace(file *source.File, start, end source.Position) jsonPlace {
	return jsonPlace{file.Path, start.Line, start.Column, end.Line, end.Column}
}

func placeOf(file *source.File, s source.Span) jsonPlace {
	return newPlace(file, file.Position(s.Start), file.Position(s.End))
}

// writeJSON writes one object; every finding stands on a line of its own.
func writeJSON(w io.Writer, r Result, _ Options) error {
	out := bufio.NewWriterSize(w, 1<<16)
	out.WriteString(`{"version":1,"findings":[`)
	sep := "\n"
	for f := range r.placed() {
		out.WriteString(sep)
		sep = ",\n"
		if err := writeValue(out, newJSONFinding(f)); err != nil {
			return err
		}
	}
	if sep != "\n" {
		out.WriteString("\n")
	}
	out.WriteString("]}\n")
	return out.Flush()
}

func newJSONFinding(f placed) jsonFinding {
	j := jsonFinding{
		jsonPlace: newPlace(f.File, f.start, f.end),
		Severity:  f.Severity.String(), Rule: f.Rule, Message: f.Message,
		Related: make([]jsonRelated, 0, len(f.Related)),
	}
	if f.Mend != nil {
		at := placeOf(f.File, f.Mend.Span)
		j.Mend, j.MendAt = &f.Mend.Text, &at
	}
	for _, r := range f.Related {
		j.Related = append(j.Related, jsonRelated{placeOf(r.File, r.Span), r.Message})
	}
	return j
}

// writeValue writes v on one line, with all that steers a terminal escaped, so
// that the output may be looked at and still says the same.
func writeValue(w io.Writer, v any) error {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return err
	}
	_, err := w.Write(escapeSteering(bytes.TrimSuffix(b.Bytes(), []byte("\n"))))
	return err
}

// escapeSteering escapes what the encoder leaves as it is. Outside strings JSON
// is ASCII, so what is escaped stands in a string.
func escapeSteering(b []byte) []byte {
	if !bytes.ContainsFunc(b, func(r rune) bool { return r > 0x7e && screen.Steers(r) || r == 0x7f }) {
		return b
	}
	var out bytes.Buffer
	for _, r := range string(b) {
		switch high, low := utf16.EncodeRune(r); {
		case r < 0x7f || r != 0x7f && !screen.Steers(r):
			out.WriteRune(r)
		case high != utf8.RuneError:
			fmt.Fprintf(&out, `\u%04x\u%04x`, high, low)
		default:
			fmt.Fprintf(&out, `\u%04x`, r)
		}
	}
	return out.Bytes()
}
