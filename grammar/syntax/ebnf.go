package syntax

import (
	"strings"

	"github.com/alecthomas/participle/v2/ebnf"
)

// A Production is one rule of a sentence, for people to read: its name, and
// each of its alternatives.
type Production struct {
	Name         string
	Alternatives []string
}

// Productions are the rules of the sentence, the sentence itself first. They
// are what participle prints, with no more parentheses than are needed.
func (g *Grammar) Productions() []Production {
	tree, err := ebnf.ParseString(g.ready().ebnf)
	if err != nil {
		return nil // newAutomaton has read it
	}
	out := make([]Production, len(tree.Productions))
	for i, p := range tree.Productions {
		out[i].Name = p.Production
		for _, a := range p.Expression.Alternatives {
			out[i].Alternatives = append(out[i].Alternatives, alternatives(a)...)
		}
	}
	return out
}

// alternatives writes a sequence, or each of several where it is nothing but a
// choice in parentheses.
func alternatives(s *ebnf.Sequence) []string {
	if len(s.Terms) == 1 && s.Terms[0].Group != nil && s.Terms[0].Repetition == "" && !s.Terms[0].Negation {
		var out []string
		for _, a := range s.Terms[0].Group.Expr.Alternatives {
			out = append(out, alternatives(a)...)
		}
		return out
	}
	terms := make([]string, len(s.Terms))
	for i, t := range s.Terms {
		terms[i] = writeTerm(t)
	}
	return []string{strings.Join(terms, " ")}
}

func writeTerm(t *ebnf.Term) string {
	text := t.Name + t.Literal
	switch {
	case t.Token != "":
		text = "<" + t.Token + ">"
	case t.Group != nil:
		var list []string
		for _, a := range t.Group.Expr.Alternatives {
			list = append(list, alternatives(a)...)
		}
		text = "( " + strings.Join(list, " | ") + " )"
	}
	if t.Negation {
		text = "~" + text
	}
	return text + t.Repetition
}
