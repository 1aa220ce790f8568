package lsp

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/fact"
	spelling "github.com/budstick/budstick/grammar/name"
	"github.com/budstick/budstick/grammar/rule"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/grammar/syntax"
)

// example reads the files of the example journal.
func example(t *testing.T) []*file {
	paths, err := filepath.Glob("../../examples/kestrel-hollow/*" + suffix)
	if err != nil || len(paths) == 0 {
		t.Fatal("there is no example")
	}
	var files []*file
	for _, path := range paths {
		b, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, fromDisk("/"+filepath.Base(path), source.New(path, b)))
	}
	return files
}

// documentOf is a file of a journal, ready to be asked about.
func documentOf(f *file, others ...*file) document {
	s := newServer(context.Background(), diskOptions())
	s.client.TextDocument.Completion.CompletionItem.SnippetSupport = true
	snap := newSnapshot(nil, &rule.Memory{})
	for _, one := range append(slices.Clone(others), f) {
		snap = snap.with(one)
	}
	return document{server: s, file: f, journal: snap}
}

func offered(t *testing.T, d document, off int32) []completionItem {
	t.Helper()
	got, err := complete(context.Background(), d, documentPosition{Position: d.rowColumn(off, d.encoding)})
	if err != nil {
		t.Fatal(err)
	}
	return got.(completionList).Items
}

// What was written next in the example journal would have been offered: every
// word of the language, and every name that was there on the day. A name of the
// grower's own that is used for the first time can't be.
func TestWhatIsWrittenNextIsOffered(t *testing.T) {
	files := example(t)
	count := 0
	for _, f := range files {
		others := slices.DeleteFunc(slices.Clone(files), func(o *file) bool { return o == f })
		for i, b := range f.blocks {
			for j := range b.page.Entries {
				e := &b.page.Entries[j]
				for _, at := range wordsToOffer(e) {
					if count++; count%3 > 0 {
						continue
					}
					cut := f.starts[i] + at.span.Start
					d := documentOf(&file{path: f.path, uri: f.uri, text: newText(f.path, f.bytes(0, cut))}, others...)
					if at.of != 0 && !d.journal.mentions(at.key) {
						continue
					}
					items := offered(t, d, cut)
					if !slices.ContainsFunc(items, func(item completionItem) bool { return spelling.Fold(item.Label) == at.key }) {
						t.Errorf("%s: behind %q %s is not offered", f.path, e.File.Text(source.Span{Start: e.Span.Start, End: at.span.Start}), at.key)
					}
				}
			}
		}
	}
	if count < 1000 {
		t.Errorf("only %d words were looked at", count)
	}
}

// wordsToOffer are the words of the language in an entry, as mentions of no
// class, and the names that it does not make.
func wordsToOffer(e *fact.Entry) []mention {
	toks := syntax.Lex(e.File.Bytes, e.Span, nil)
	kind, _ := entry.Named(e.Verb)
	path := kind.Grammar.Path(e.File, toks)
	known := mentionsIn(e)
	var list []mention
	for n, tok := range toks {
		m := slices.IndexFunc(known, func(m mention) bool { return m.span == tok.Span })
		switch {
		case path[n].Not: // of a line that is struck
		case m >= 0 && !known[m].made:
			list = append(list, known[m])
		case m < 0 && path[n].Literal != "" && tok.Kind != syntax.Comma && tok.Kind != syntax.Colon && tok.Kind != syntax.Cross:
			list = append(list, mention{span: tok.Span, key: path[n].Literal})
		}
	}
	return list
}

// mentions reports whether a name stands somewhere in the journal.
func (s *snapshot) mentions(key string) bool {
	for _, f := range s.files {
		for _, b := range f.blocks {
			if slices.ContainsFunc(b.names(), func(m mention) bool { return m.key == key }) {
				return true
			}
		}
	}
	return false
}

// Whatever stands at the cursor, all that can be asked is answered, and what is
// offered stands where it was written.
func TestEveryPlaceIsAnswered(t *testing.T) {
	files := example(t)
	torn := "2026-03-02\ngraft 40 of \"QB25 with é🌱\n  by cleft #x\nsell 12 of\n\n  worker \nplant 1 of AM26 as R2/1 to\r\nstrike line 3 x because \"\nallow \n"
	for _, f := range []*file{files[len(files)-1], {path: "/torn.bud", uri: "file:///torn.bud", text: newText("/torn.bud", []byte(torn))}} {
		d := documentOf(f, files...)
		ctx := context.Background()
		for off := int32(0); off <= f.len(); off += 1 + f.len()/2500 {
			at := documentPosition{Position: f.rowColumn(off, d.encoding)}
			if real, _ := f.offset(at.Position, d.encoding); real != off {
				continue // between CR and LF, or within a character
			}
			for _, item := range offered(t, d, off) {
				if r := item.TextEdit.Range; r.End != at.Position || r.Start.Line != at.Position.Line || r.End.before(r.Start) {
					t.Fatalf("%s at %v: %s is to be written at %v", f.path, at.Position, item.Label, r)
				}
			}
			for name, ask := range map[string]func() (any, error){
				"hover":      func() (any, error) { return hover(ctx, d, at) },
				"definition": func() (any, error) { return definition(ctx, d, at) },
				"highlight":  func() (any, error) { return highlight(ctx, d, at) },
				"newline":    func() (any, error) { return onTypeFormatting(ctx, d, onTypeParams{at, "\n"}) },
			} {
				if _, err := ask(); err != nil {
					t.Fatalf("%s at %v: %s: %v", f.path, at.Position, name, err)
				}
			}
		}
	}
}
