package syntax

import (
	"fmt"
	"strings"
	"testing"

	"github.com/alecthomas/participle/v2/lexer"
	"pgregory.net/rapid"

	"github.com/budstick/budstick/grammar/source"
)

// toy has a part of every shape that sentences have: a choice, a list, an
// option, a loop of clauses, and words up to another.
type toy struct {
	Count *Ref     `parser:"'go' ( @Int 'of' )?"`
	Names []*thing `parser:"@@ ( ',' @@ )*"`
	Far   *Ref     `parser:"( ( @'near' | @'far' ) Unit? )?"`
	Tails []*tail  `parser:"@@*"`
	Free  []Ref    `parser:"( 'line' @((!'because')*) 'because' )?"`
}

type thing struct {
	Name Ref `parser:"@(Word | Quoted)"`
}

type tail struct {
	As *thing `parser:"  'as' @@"`
	At *Ref   `parser:"| 'at' @(Int | Decimal)"`
}

// firsts lists what may follow some text, in the notation of the EBNF.
func firsts(g *Grammar, text string) string {
	file := source.New("", []byte(text))
	_, want := g.Expected(file, Lex(file.Bytes, source.Span{End: int32(len(text))}, nil))
	var out []string
	for _, t := range want {
		out = append(out, t.String())
	}
	return strings.Join(out, " ")
}

func TestExpected(t *testing.T) {
	g := Sentence[toy]()
	clauses := `"as" "at" "line" <eof>`
	for text, want := range map[string]string{
		"":                      `"go"`,
		"go":                    `<word> <quoted> <int>`,
		"go 4":                  `"of"`,
		"go 4 of":               `<word> <quoted>`,
		"go A":                  `"," "as" "at" "far" "line" "near" <eof>`,
		"go A,":                 `<word> <quoted>`,
		`go A, "B"`:             `"," "as" "at" "far" "line" "near" <eof>`,
		"GO A Far":              `"as" "at" "line" <unit> <eof>`,
		"go A at":               `<int> <decimal>`,
		"go A at 3":             clauses,
		"go A at 3 as B":        clauses,
		"go A line":             `"because" ~"because"`,
		"go A line 4 of":        `"because" ~"because"`,
		"go A line because":     `<eof>`,
		"go 4 4":                `"of"`, // where it stopped fitting
		"go A far far at at at": `"as" "at" "line" <unit> <eof>`,
	} {
		if got := firsts(g, text); got != want {
			t.Errorf("behind %q could stand %s, want %s", text, got, want)
		}
	}
	if c := g.Conflicts(); len(c) > 0 {
		t.Errorf("conflicts: %q", c)
	}
}

// TestAutomatonAgreesWithParticiple holds that the two accept the same
// sentences, whatever tokens come.
func TestAutomatonAgreesWithParticiple(t *testing.T) {
	g := Sentence[toy]()
	pieces := []string{"go", "4", "of", "A", `"B"`, ",", "near", "far", "as", "at", "2.5", "line", "because", ":", "(", "kg"}
	rapid.Check(t, func(t *rapid.T) {
		text := "go " + strings.Join(rapid.SliceOfN(rapid.SampledFrom(pieces), 0, 12).Draw(t, "pieces"), " ")
		file := source.New("", []byte(text))
		toks := Lex(file.Bytes, source.Span{End: int32(len(text))}, nil)
		p := NewParser()
		p.see(g, file, toks)
		_, bad := p.participle(g, file, toks)
		n, at := g.auto.run(0, p.list)
		fits := n == len(toks) && g.auto.spots[at].end
		if fits != (bad == nil) {
			t.Fatalf("%q: the automaton fits %d of %d tokens, participle says %+v", text, n, len(toks), bad)
		}
		if _, miss := NewParser().Parse(g, file, toks); (miss == nil) != fits {
			t.Fatalf("%q: parsed with %+v", text, miss)
		}
	})
}

// TestShapesAreKept holds that an entry of a known shape gets the tree of its
// own shape, and not of one like it.
func TestShapesAreKept(t *testing.T) {
	g, p := Sentence[toy](), NewParser()
	parse := func(text string) *toy {
		file := source.New("", []byte(text))
		tree, bad := p.Parse(g, file, Lex(file.Bytes, source.Span{End: int32(len(text))}, nil))
		if bad != nil {
			t.Fatalf("%q stops at %d", text, bad.At)
		}
		return tree.(*toy)
	}
	first := parse("go 4 of A as B")
	if again := parse("go 75 of X9 AS Y"); again != first {
		t.Error("an entry of the same shape was parsed again")
	}
	for _, text := range []string{"go A as B", `go 4 of "A" as B`, "go 4 of A", "go 4 of A at 3", "go 4 of as2 far"} {
		if parse(text) == first {
			t.Errorf("%q got the tree of another shape", text)
		}
	}
	if far := parse("go B far"); far.Far == nil || far.Far.Value != "far" || far.Far.Pos != (lexer.Position{Offset: 2}) {
		t.Errorf("the word is captured as %+v", far.Far)
	}
}

func TestRepair(t *testing.T) {
	g, p := Sentence[toy](), NewParser()
	for text, want := range map[string]string{
		"go 4 A":         `missing at 2: "of"`,
		"go 4 of":        `missing at 3: <word>`,
		"go 4 of as B":   `missing at 3: <word>`,
		"go":             `missing at 1: <word>`,
		"go A B":         `wrong at 2: "near" or "far"`,
		"go 4 xx of A":   `surplus at 2`,
		"go A at B":      `wrong at 3: <int>`,
		"go far as B":    ``, // far is a fine name
		"go 4 A of as B": `out of place at 3, belongs at 2`,
		"go A 4":         `name at 1 first, up to 3`,
		"go A as":        `missing at 3: <word>`,
		"go as at 3":     `wrong at 1: <word>`,
		"go 4 far":       `missing at 2: "of"`,
		"go 4 at 3":      `missing at 2: "of" <word>`,
		"go ( ( (":       `unclear`,
	} {
		file := source.New("", []byte(text))
		toks := Lex(file.Bytes, source.Span{End: int32(len(text))}, nil)
		got := ""
		if _, bad := p.Parse(g, file, toks); bad != nil {
			got = shownRepair(p.Repair(g, file, toks, bad.At))
		}
		if got != want {
			t.Errorf("%q: %s, want %s", text, got, want)
		}
	}
}

func shownRepair(r Repair) string {
	var put []string
	for _, s := range r.Put {
		put = append(put, s.Terminal.String())
	}
	for _, s := range r.Or {
		put = append(put, "or "+s.Terminal.String())
	}
	list := strings.Join(put, " ")
	switch r.How {
	case Missing:
		return fmt.Sprintf("missing at %d: %s", r.At, list)
	case Wrong:
		return fmt.Sprintf("wrong at %d: %s", r.At, list)
	case Surplus:
		return fmt.Sprintf("surplus at %d", r.At)
	case OutOfPlace:
		return fmt.Sprintf("out of place at %d, belongs at %d", r.At, r.To)
	case NameFirst:
		return fmt.Sprintf("name at %d first, up to %d", r.At, r.To)
	}
	return "unclear"
}
