package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/budstick/budstick/grammar/name"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/grammar/syntax"
)

// A mapping says how the rows of a spreadsheet become entries; FORMAT.md tells
// how it is written.
type mapping struct {
	order   []string // of the parts of a date; none where dates are by ISO 8601
	comma   bool     // numbers have a decimal comma
	words   []rewording
	left    [][]condition // rows that are left out
	recipes []recipe
}

// A rewording is what the sheet has for a word of the journal.
type rewording struct {
	line    int
	said    string
	means   string
	columns []string
}

// A recipe is sentences that are written for each row which it is for.
type recipe struct {
	line      int
	day       string // the column; none for what stands once, above the first day
	where     []condition
	sentences []sentence
}

// A condition asks whether a column has one of the values or, where there are
// none, whether it is empty.
type condition struct {
	line   int
	column string
	not    bool
	values []string
}

// A sentence is an entry in the making.
type sentence struct {
	line  int
	lines []template
}

// A fault is something wrong with a line of a mapping or a sheet.
type fault struct {
	line    int
	message string
}

// readMapping reads a mapping, and gives all that is wrong with it.
func readMapping(file *source.File) (*mapping, []fault) {
	r := &mappingReader{m: &mapping{}}
	if file.NotText() >= 0 {
		return nil, []fault{{1, "this is no text; save it as UTF-8"}}
	}
	for i := range file.Lines() {
		line := file.Text(file.LineSpan(i + 1))
		if i == 0 {
			line = strings.TrimPrefix(line, "\ufeff")
		}
		r.line(i+1, line)
	}
	for _, b := range r.m.recipes {
		if len(b.sentences) == 0 {
			r.fault(b.line, "no sentence stands below this line, indented")
		}
	}
	if len(r.m.recipes) == 0 && len(r.faults) == 0 {
		r.fault(1, "the mapping has no sentence; one is written below a line such as: on Date where What is graft")
	}
	return r.m, r.faults
}

type mappingReader struct {
	m      *mapping
	indent int // of the sentences of the recipe at hand
	faults []fault
}

func (r *mappingReader) fault(line int, format string, args ...any) {
	r.faults = append(r.faults, fault{line, fmt.Sprintf(format, args...)})
}

// line reads one line: a rule of the mapping in the first column, or a sentence
// below one, indented.
func (r *mappingReader) line(n int, text string) {
	words := strings.TrimLeft(text, " \t")
	if words == "" || words[0] == '#' {
		return
	}
	if indent := len(text) - len(words); indent > 0 {
		r.sentence(n, indent, words)
		return
	}
	r.indent = 0
	d := &directive{text: text, toks: syntax.Lex([]byte(text), source.Span{End: int32(len(text))}, nil)}
	if err := r.rule(n, d); err != nil {
		r.fault(n, "%v", err)
	}
}

// sentence reads a line of a sentence: one that is indented further goes on with
// the sentence above it.
func (r *mappingReader) sentence(n, indent int, text string) {
	if len(r.m.recipes) == 0 {
		r.fault(n, "a sentence stands below a line that says for which rows it is, such as: on Date where What is graft")
		return
	}
	t, err := readTemplate(text)
	if err != nil {
		r.fault(n, "%v", err)
	}
	b := &r.m.recipes[len(r.m.recipes)-1]
	if r.indent == 0 {
		r.indent = indent
	}
	if indent > r.indent && len(b.sentences) > 0 {
		last := &b.sentences[len(b.sentences)-1]
		last.lines = append(last.lines, t)
		return
	}
	b.sentences = append(b.sentences, sentence{n, []template{t}})
}

// rule reads a rule of the mapping.
func (r *mappingReader) rule(n int, d *directive) error {
	switch first := d.next(); first {
	case "on", "once":
		b := recipe{line: n}
		if first == "on" {
			b.day = d.next()
		}
		var err error
		if d.take("where") {
			b.where, err = d.conditions(n)
		}
		r.m.recipes = append(r.m.recipes, b)
		if err != nil {
			return err
		}
		return d.end(first == "once" || b.day != "", "on Date where What is graft")
	case "leave":
		ok := d.take("out") && d.take("where")
		where, err := d.conditions(n)
		r.m.left = append(r.m.left, where)
		if ok && err != nil {
			return err
		}
		return d.end(ok, `leave out where What is "day off"`)
	case "read":
		w := rewording{line: n, said: d.next()}
		ok := d.take("as")
		w.means = d.next()
		ok = ok && d.take("in")
		w.columns = d.list()
		r.m.words = append(r.m.words, w)
		return d.end(ok && w.said != "" && w.means != "" && len(w.columns) > 0, `read "W&T" as whip-and-tongue in Method`)
	case "dates":
		r.m.order = []string{d.next(), d.next(), d.next()}
		parts := slices.Sorted(slices.Values(r.m.order))
		return d.end(slices.Equal(parts, []string{"day", "month", "year"}), "dates day month year")
	case "decimal":
		r.m.comma = true
		return d.end(d.take("comma"), "decimal comma")
	default:
		rules := []string{"on", "once", "leave", "read", "dates", "decimal"}
		return fmt.Errorf("a mapping has no line that begins with %s; it has %s%s", first, strings.Join(rules, ", "), orMeant(first, rules))
	}
}

// A directive is the words of a rule, as they are read.
type directive struct {
	text string
	toks []syntax.Token
}

// next takes the next word or name; none is empty.
func (d *directive) next() string {
	if len(d.toks) == 0 || d.toks[0].Kind == syntax.Comma {
		return ""
	}
	tok := d.toks[0]
	d.toks = d.toks[1:]
	text := d.text[tok.Span.Start:tok.Span.End]
	if tok.Kind == syntax.Quoted {
		return syntax.Unquote(text)
	}
	return text
}

// take takes a word if it is the next.
func (d *directive) take(word string) bool {
	if len(d.toks) == 0 || d.text[d.toks[0].Span.Start:d.toks[0].Span.End] != word {
		return false
	}
	d.toks = d.toks[1:]
	return true
}

// list takes names with commas between them.
func (d *directive) list() []string {
	var out []string
	for {
		if s := d.next(); s != "" {
			out = append(out, s)
		}
		if !d.take(",") {
			return out
		}
	}
}

// conditions takes conditions with and between them.
func (d *directive) conditions(line int) ([]condition, error) {
	var list []condition
	for {
		c := condition{line: line, column: d.next()}
		ok := c.column != "" && d.take("is")
		c.not = d.take("not")
		if !d.take("empty") {
			c.values = d.list()
			ok = ok && len(c.values) > 0
		}
		if !ok {
			return nil, fmt.Errorf("a condition is written like this: where What is graft, bud and Lot is not empty")
		}
		list = append(list, c)
		if !d.take("and") {
			return list, nil
		}
	}
}

// end is an error unless all went well and no word is left.
func (d *directive) end(ok bool, pattern string) error {
	if ok && len(d.toks) == 0 {
		return nil
	}
	return fmt.Errorf("write it like this: %s", pattern)
}

// columns calls f with each column that the mapping names and the line where it
// does.
func (m *mapping) columns(f func(line int, column string)) {
	conditions := func(list []condition) {
		for _, c := range list {
			f(c.line, c.column)
		}
	}
	for _, w := range m.words {
		for _, column := range w.columns {
			f(w.line, column)
		}
	}
	for _, where := range m.left {
		conditions(where)
	}
	for _, b := range m.recipes {
		if b.day != "" {
			f(b.line, b.day)
		}
		conditions(b.where)
		for _, s := range b.sentences {
			for _, t := range s.lines {
				t.columns(func(column string) { f(s.line, column) })
			}
		}
	}
}

// holds reports whether all conditions hold for a row.
func holds(where []condition, r row) bool {
	for _, c := range where {
		cell := r.cell(c.column)
		is := cell == "" && len(c.values) == 0
		for _, v := range c.values {
			is = is || name.Fold(v) == name.Fold(cell)
		}
		if is == c.not {
			return false
		}
	}
	return true
}
