package editor

import (
	"bytes"
	"encoding/json"
	"strings"
)

// The grammar of TextMate, as editors read it: rules with regular expressions of
// Oniguruma. What begins a rule decides which words are coloured up to its end.
type tmGrammar struct {
	Comment    string            `json:"comment"`
	Name       string            `json:"name"`
	ScopeName  string            `json:"scopeName"`
	FileTypes  []string          `json:"fileTypes"`
	Patterns   []tmRule          `json:"patterns"`
	Repository map[string]tmRule `json:"repository"`
}

type tmRule struct {
	Include       string           `json:"include,omitempty"`
	Name          string           `json:"name,omitempty"`
	Match         string           `json:"match,omitempty"`
	Begin         string           `json:"begin,omitempty"`
	End           string           `json:"end,omitempty"`
	Captures      map[string]named `json:"captures,omitempty"`
	BeginCaptures map[string]named `json:"beginCaptures,omitempty"`
	Patterns      []tmRule         `json:"patterns,omitempty"`
}

type named struct {
	Name string `json:"name"`
}

// Names hold letters, digits and some signs; a word begins and ends where they
// do.
const (
	tmOpen  = `(?<![\p{L}\p{M}\p{N}_./-])`
	tmClose = `(?![\p{L}\p{M}\p{N}_./-])`
	// tmNext is where the next entry begins: a comment line never ends one.
	tmNext = `^(?=[^\s#])`
)

// textMate writes the grammar.
func textMate(v vocabulary) string {
	units := `(?i:` + strings.Join(v.Units, "|") + `)` + tmClose + `|%`
	number := tmOpen + `\d+(?:\.\d+)?`
	g := tmGrammar{
		Comment: "Made from the grammar of the entries; see grammar/editor.",
		Name:    "budstick", ScopeName: "source.budstick", FileTypes: []string{"bud"},
		Patterns: []tmRule{{Include: "#comment"}, {Include: "#day"}},
		Repository: map[string]tmRule{
			"comment": {Name: "comment.line.number-sign.budstick", Match: `#.*$`},
			"day":     {Name: "entity.name.section.budstick", Match: `^\d{4}-\d\d-\d\d[^#]*`},
			"parts": {Patterns: []tmRule{
				{Include: "#comment"},
				{Name: "string.quoted.double.budstick", Match: `"(?:[^"\\]|\\.)*"|[“”„‟″](?:[^"“”„‟″\\]|\\.)*["“”„‟″]`},
				{Name: "constant.other.date.budstick", Match: tmOpen + `\d{4}-\d\d(?:-\d\d)?` + tmClose},
				{
					Match:    `(` + number + `)\s*(` + units + `|[A-Z]{3}` + tmClose + `)`,
					Captures: map[string]named{"1": {"constant.numeric.budstick"}, "2": {"keyword.other.unit.budstick"}},
				},
				{
					Match: tmOpen + `(\d+)((?i:h))(\d+)((?i:min))` + tmClose,
					Captures: map[string]named{
						"1": {"constant.numeric.budstick"}, "2": {"keyword.other.unit.budstick"},
						"3": {"constant.numeric.budstick"}, "4": {"keyword.other.unit.budstick"},
					},
				},
				{
					Match:    tmOpen + `((?i:per))\s+(` + units + `)`,
					Captures: map[string]named{"1": {"keyword.other.budstick"}, "2": {"keyword.other.unit.budstick"}},
				},
				{Name: "constant.numeric.budstick", Match: number + tmClose},
			}},
		},
	}
	for _, x := range v.Verbs {
		rule := tmRule{
			Begin: `^((?i:` + x.Name + `))` + tmClose, End: tmNext,
			BeginCaptures: map[string]named{"1": {"keyword.control.budstick"}},
			Patterns:      []tmRule{{Include: "#parts"}},
		}
		if len(x.Words) > 0 {
			words := tmRule{Name: "keyword.other.budstick", Match: tmOpen + `(?i:` + strings.Join(x.Words, "|") + `)` + tmClose}
			rule.Patterns = append(rule.Patterns, words)
		}
		g.Repository["entry-"+x.Name] = rule
		g.Patterns = append(g.Patterns, tmRule{Include: "#entry-" + x.Name})
	}
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(g); err != nil {
		panic(err) // it is made of texts alone
	}
	return b.String()
}
