// Package editor writes the files by which editors colour a journal: which words
// are verbs, and which are words of each verb's sentence, come from the grammar of
// the entries.
//
// The files lie in the folders vim, vscode, emacs and kate, where editors take
// them from; README.md tells how. Nothing of the program imports this package: its
// test holds the files against Files, and with -update writes them.
package editor

import (
	"cmp"
	"embed"
	"slices"
	"strings"
	"text/template"
	"unicode"
	"unicode/utf8"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/syntax"
)

// A File is one that is made, by its path from this folder.
type File struct {
	Path string
	Text string
}

// Files makes all files.
func Files() []File {
	v := vocabularyOf(entry.All)
	return []File{
		{"vim/syntax/budstick.vim", fill("budstick.vim", v)},
		{"emacs/budstick-mode.el", fill("budstick-mode.el", v)},
		{"kate/budstick.xml", fill("budstick.xml", v)},
		{"vscode/syntaxes/budstick.tmLanguage.json", textMate(v)},
	}
}

// A vocabulary is the words of the language.
type vocabulary struct {
	Verbs []verb
	Units []string // that are words, the longest first
}

// A verb begins an entry, and its words lead the clauses of that entry.
type verb struct {
	Name  string
	Words []string
}

func vocabularyOf(kinds []*entry.Kind) vocabulary {
	var v vocabulary
	uses := map[string]int{}
	for _, k := range kinds {
		for _, w := range k.Grammar.Words() {
			uses[w]++
		}
	}
	for _, k := range kinds {
		x := verb{Name: k.Verb}
		for _, w := range k.Grammar.Words() {
			// A word like note begins entries and clauses of all others too.
			clause := w != k.Verb || uses[w] > len(kinds)/2
			if isWord(w) && clause {
				x.Words = append(x.Words, w)
			}
		}
		v.Verbs = append(v.Verbs, x)
	}
	v.Units = slices.DeleteFunc(syntax.UnitSpellings(), func(u string) bool { return !isWord(u) })
	slices.SortFunc(v.Units, func(a, b string) int {
		return cmp.Or(cmp.Compare(len(b), len(a)), strings.Compare(a, b))
	})
	return v
}

// isWord tells words from signs.
func isWord(s string) bool {
	r, _ := utf8.DecodeRuneInString(s)
	return unicode.IsLetter(r)
}

//go:embed templates
var templates embed.FS

var filled = template.Must(template.New("").Funcs(template.FuncMap{
	"join": strings.Join,
	// each writes every word between two texts.
	"each": func(before, after, between string, words []string) string {
		out := make([]string, len(words))
		for i, w := range words {
			out[i] = before + w + after
		}
		return strings.Join(out, between)
	},
}).ParseFS(templates, "templates/*"))

// fill writes a file by its template, which can't fail: the words are all it
// needs.
func fill(name string, v vocabulary) string {
	var b strings.Builder
	if err := filled.ExecuteTemplate(&b, name, v); err != nil {
		panic(err)
	}
	return b.String()
}
