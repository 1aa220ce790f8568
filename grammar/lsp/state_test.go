package lsp

import (
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/grammar/rule"
	"github.com/budstick/budstick/grammar/source"
)

// linted is what the linter says of a file of a journal, as an editor would be
// told.
func linted(path string, files ...*source.File) []diagnostic {
	var pages []*entry.Page
	byPath := map[string]*source.File{}
	for _, f := range files {
		pages = append(pages, entry.Read(f))
		byPath[f.Path] = f
	}
	at := func(f *source.File, s source.Span) span {
		r1, c1 := f.RowColumn(s.Start, source.UTF16)
		r2, c2 := f.RowColumn(s.End, source.UTF16)
		return span{position{r1, c1}, position{r2, c2}}
	}
	list := []diagnostic{}
	for _, f := range finding.Sort(rule.Check(nursery.Replay(pages, 0))) {
		if f.File.Path != path {
			continue
		}
		d := diagnostic{Range: at(f.File, f.Span), Severity: severities[f.Severity], Code: f.Rule, Source: "budstick", Message: f.Message}
		for _, r := range f.Related {
			d.Related = append(d.Related, diagnosticRelated{location{uriOfPath(r.File.Path), at(r.File, r.Span)}, r.Message})
		}
		list = append(list, d)
	}
	return list
}

// Whatever is typed, what an editor is told in the end is what the linter says
// of the same files, also in the steps of a large journal.
func TestToldIsWhatTheLinterSays(t *testing.T) {
	smallBlocks(t)
	largeJournal = 1
	defer func() { largeJournal = 10_000 }()
	folder := t.TempDir()
	rapid.Check(t, func(rt *rapid.T) {
		// Neither file of the scraps may begin with a byte-order mark on the disk:
		// it is no character there.
		other := "farm \"Kestrel Hollow\" currency EUR\n" + drawText(rt, 12)
		model := "\n" + drawText(rt, 30)
		otherPath, path := filepath.Join(folder, "a.bud"), filepath.Join(folder, "b.bud")
		if err := os.WriteFile(otherPath, []byte(other), 0o644); err != nil {
			t.Fatal(err)
		}
		c := newClient(t, diskOptions())
		c.begin(folder)
		uri := uriOfPath(path)
		c.open(uri, model, 1)
		for version := range rapid.IntRange(0, 5).Draw(rt, "edits") {
			e := drawEdit(rt, model)
			f := source.New(path, []byte(model))
			r1, c1 := f.RowColumn(e.start, source.UTF16)
			r2, c2 := f.RowColumn(e.end, source.UTF16)
			c.notify("textDocument/didChange", object{
				"textDocument":   object{"uri": uri, "version": version + 2},
				"contentChanges": []object{{"range": span{position{r1, c1}, position{r2, c2}}, "text": e.with}},
			})
			// A place between CR and LF is none for an editor: it is the end of the line.
			start, _ := f.RowOffset(r1, c1, source.UTF16)
			end, _ := f.RowOffset(r2, c2, source.UTF16)
			model = model[:start] + e.with + model[end:]
			if rapid.Bool().Draw(rt, "settle") {
				c.settle()
			}
		}
		c.settle()
		if got, _ := c.text(uri); got != model {
			rt.Fatalf("the text is %q, want %q", got, model)
		}
		c.mu.Lock()
		got := c.found[uri].Diagnostics
		c.mu.Unlock()
		want := linted(path, source.New(otherPath, []byte(other)), source.New(path, []byte(model)))
		if len(got)+len(want) > 0 && !reflect.DeepEqual(got, want) {
			rt.Fatalf("of %q\nis told %s\nand linted %s", model, lines(got), lines(want))
		}
		if code := c.end(); code != 0 {
			rt.Fatalf("status %d", code)
		}
	})
}

func lines(list []diagnostic) string {
	out := ""
	for _, d := range list {
		out += fmt.Sprintf("\n%+v", d)
	}
	return out
}
