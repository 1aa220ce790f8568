package syntax

import (
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2/ebnf"
)

// A Form is a sentence as a grower is shown it: its fixed part, the clauses of
// its own that may follow, and those that it shares with others. What is written
// in capitals stands for something; what stands in brackets may be left out.
type Form struct {
	Sentence string
	Clauses  []string
	Shared   []string
}

// shared are the productions whose clauses stand behind nearly every sentence.
var shared = []string{"Common", "Remark"}

// Form makes the form of a sentence from its productions.
func (g *Grammar) Form() Form {
	tree, err := ebnf.ParseString(g.ready().ebnf)
	if err != nil {
		return Form{} // newAutomaton has read it
	}
	w := formWriter{rules: map[string]*ebnf.Expression{}}
	for _, p := range tree.Productions {
		w.rules[p.Production] = p.Expression
	}
	w.form.Sentence = oneOf(w.choice(tree.Productions[0].Expression), false)
	return w.form
}

type formWriter struct {
	rules map[string]*ebnf.Expression
	form  Form
}

// choice writes each alternative, one for those that look alike.
func (w *formWriter) choice(e *ebnf.Expression) []string {
	var list []string
	for _, a := range e.Alternatives {
		if inner := w.alone(a); inner != nil {
			list = append(list, w.choice(inner)...)
			continue
		}
		var words []string
		for _, t := range a.Terms {
			if text := w.term(t); text != "" {
				words = append(words, text)
			}
		}
		if text := tight.Replace(strings.Join(words, " ")); text != "" && !slices.Contains(list, text) {
			list = append(list, text)
		}
	}
	if slices.Equal(list, []string{"NAME", textForm}) { // names of several words stand in quotes
		return list[:1]
	}
	return list
}

// alone is the choice that an alternative is nothing but, or nil.
func (w *formWriter) alone(a *ebnf.Sequence) *ebnf.Expression {
	t := a.Terms[0]
	switch {
	case len(a.Terms) > 1 || t.Repetition != "" || t.Negation || isClause(t.Name):
		return nil
	case t.Group != nil:
		return t.Group.Expr
	}
	return w.rules[t.Name]
}

// isClause reports whether a production is about clauses.
func isClause(name string) bool {
	return slices.Contains(shared, name) || strings.HasSuffix(name, "Clause")
}

// tight sets commas and colons behind what they follow.
var tight = strings.NewReplacer(" ,", ",", " :", ":", " [,", "[,", " [:]", "[:]")

func (w *formWriter) term(t *ebnf.Term) string {
	if t.Negation {
		return "…"
	}
	var list []string
	switch {
	case t.Literal != "":
		list = []string{strings.Trim(t.Literal, `"`)}
	case t.Token != "":
		list = []string{tokenForms[t.Token]}
	case t.Group != nil:
		list = w.choice(t.Group.Expr)
	case slices.Contains(shared, t.Name):
		w.form.Shared = append(w.form.Shared, w.choice(w.rules[t.Name])...)
		return ""
	case isClause(t.Name):
		w.form.Clauses = append(w.form.Clauses, w.choice(w.rules[t.Name])...)
		return ""
	default:
		list = w.choice(w.rules[t.Name])
	}
	switch {
	case len(list) == 0:
		return ""
	case t.Repetition == "?":
		return "[" + strings.Join(list, " | ") + "]"
	case t.Repetition == "*":
		return "[" + strings.Join(list, " | ") + " …]"
	}
	return oneOf(list, true)
}

// oneOf writes a choice, in parentheses within a sentence.
func oneOf(list []string, within bool) string {
	text := strings.Join(list, " | ")
	if within && len(list) > 1 {
		return "(" + text + ")"
	}
	return text
}

const textForm = `"TEXT"`

// tokenForms is what is written for the kinds of tokens.
var tokenForms = map[string]string{
	"word": "NAME", "quoted": textForm, "int": "NUMBER", "decimal": "NUMBER", "date": "DATE", "month": "MONTH",
	"unit": "UNIT", "currency": "CURRENCY", "cross": "×",
}
