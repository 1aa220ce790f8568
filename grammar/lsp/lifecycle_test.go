package lsp

import (
	"context"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/budstick/budstick/grammar/source"
)

// code is the error code of an answer, or 0.
func code(err error) int {
	var e *answerError
	if errors.As(err, &e) {
		return e.Code
	}
	return 0
}

// The order of a session is that of LSP 3.17, Lifecycle Messages.
func TestOrderOfASession(t *testing.T) {
	c := newClient(t, diskOptions())
	if got := code(c.call("textDocument/hover", object{}, nil)); got != -32002 {
		t.Errorf("before initialize: %d, want ServerNotInitialized", got)
	}
	if got := code(c.call("shutdown", nil, nil)); got != -32002 {
		t.Errorf("shutdown before initialize: %d, want ServerNotInitialized", got)
	}
	c.open("file:///x.bud", "note \"lost\"\n", 1)
	c.begin(t.TempDir())
	if _, open := c.text("file:///x.bud"); open {
		t.Error("what was opened before initialize is open")
	}
	if got := code(c.call("initialize", object{}, nil)); got != -32600 {
		t.Errorf("initialize a second time: %d, want InvalidRequest", got)
	}
	if got := code(c.call("textDocument/hover", object{"textDocument": object{"uri": "file:///x.bud"}}, nil)); got != -32602 {
		t.Errorf("hover over a file that is not open: %d, want InvalidParams", got)
	}
	if got := code(c.call("textDocument/codeLens", object{}, nil)); got != -32601 {
		t.Errorf("a method that is not offered: %d, want MethodNotFound", got)
	}
	if err := c.call("shutdown", nil, nil); err != nil {
		t.Error(err)
	}
	if got := code(c.call("workspace/symbol", object{}, nil)); got != -32600 {
		t.Errorf("after shutdown: %d, want InvalidRequest", got)
	}
	c.notify("exit", nil)
	if status := <-c.code; status != 0 {
		t.Errorf("exit after shutdown: status %d", status)
	}
}

func TestExitWithoutShutdown(t *testing.T) {
	c := newClient(t, diskOptions())
	c.begin(t.TempDir())
	c.notify("exit", nil)
	if status := <-c.code; status != 1 {
		t.Errorf("status %d, want 1", status)
	}
}

// An editor that offers no encoding, and one that offers UTF-8.
func TestEncodingIsAgreed(t *testing.T) {
	for _, c := range []struct {
		offers []string
		want   string
	}{{nil, "utf-16"}, {[]string{"utf-16"}, "utf-16"}, {[]string{"utf-32", "utf-8"}, "utf-8"}} {
		cl := newClient(t, diskOptions())
		var answer struct {
			Capabilities struct{ PositionEncoding string }
		}
		params := object{"capabilities": object{"general": object{"positionEncodings": c.offers}}}
		if err := cl.call("initialize", params, &answer); err != nil || answer.Capabilities.PositionEncoding != c.want {
			t.Errorf("offered %v: %q, %v", c.offers, answer.Capabilities.PositionEncoding, err)
		}
	}
}

// with lets a test have a method of its own.
func with(t *testing.T, method string, f func(context.Context) (any, error)) {
	requests[method] = func(*server, json.RawMessage) (answer, error) { return f, nil }
	t.Cleanup(func() { delete(requests, method) })
}

func TestCancel(t *testing.T) {
	with(t, "test/wait", func(ctx context.Context) (any, error) {
		<-ctx.Done()
		return nil, ctx.Err()
	})
	c := newClient(t, diskOptions())
	c.begin(t.TempDir())
	id := c.ask("test/wait", nil)
	other := c.ask("test/wait", nil)
	c.notify("$/cancelRequest", object{"id": json.RawMessage(id)})
	if got := code(c.answer(id, nil)); got != -32800 {
		t.Errorf("cancelled: %d, want RequestCancelled", got)
	}
	c.mu.Lock()
	if c.answers[other] != nil {
		t.Error("another request was cancelled too")
	}
	c.mu.Unlock()
	if status := c.end(); status != 0 { // what still waits is given up
		t.Errorf("status %d", status)
	}
}

// A mistake of the program's own is told, and the session goes on.
func TestMistakesAreSurvived(t *testing.T) {
	with(t, "test/fail", func(context.Context) (any, error) { panic("oh") })
	c := newClient(t, diskOptions())
	fault := make(chan any, 1)
	c.server.broken = func(p any) { fault <- p }
	c.begin(t.TempDir())
	if err := c.call("test/fail", nil, nil); code(err) != -32603 || !strings.Contains(err.Error(), "a mistake in budstick: oh") {
		t.Errorf("the answer is %v", err)
	}
	if <-fault != "oh" {
		t.Error("it was not reported")
	}
	c.barrier()
	c.mu.Lock()
	defer c.mu.Unlock()
	if !slices.ContainsFunc(c.said, func(s string) bool { return strings.HasPrefix(s, "a mistake in budstick: oh\n") }) {
		t.Errorf("the log says %q", c.said)
	}
}

// diagnosed is the rules that were told of last, by file.
func (c *client) diagnosed(uri string) (rules []string, told bool) {
	c.settle()
	c.mu.Lock()
	defer c.mu.Unlock()
	p, told := c.found[uri]
	for _, d := range p.Diagnostics {
		rules = append(rules, d.Code)
	}
	return rules, told
}

// What is open counts, not what is on the disk; what is not open counts as it is
// on the disk, also when that changes.
func TestDiskAndEditor(t *testing.T) {
	folder := t.TempDir()
	put := func(name, text string) string {
		path := filepath.Join(folder, name)
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return uriOfPath(path)
	}
	trees := put("trees.bud", "\uFEFFvariety Amberlight species \"Eriobotrya japonica\"\ntree M7 variety Amberlight\n")
	notes := put("notes.bud", "old\n")
	c := newClient(t, diskOptions())
	c.begin(folder)
	want := func(uri string, rules ...string) {
		t.Helper()
		if got, _ := c.diagnosed(uri); !slices.Equal(got, rules) {
			t.Errorf("%s: %v, want %v", filepath.Base(uri), got, rules)
		}
	}
	c.open(notes, "note M7 \"in bloom\"\nnote M8 \"in bloom\"\n", 1)
	want(notes, "unknown-name")
	watch := func(kind int) {
		c.notify("workspace/didChangeWatchedFiles", object{"changes": []object{{"uri": trees, "type": kind}, {"uri": notes, "type": kind}}})
	}
	put("trees.bud", "variety Amberlight species \"Eriobotrya japonica\"\ntree M8 variety Amberlight\n")
	watch(2)
	c.diagnosed(notes)
	want(notes, "unknown-name")
	c.open(trees, "variety Amberlight species \"Eriobotrya japonica\"\ntree M8 variety Amberlight\ntree M7 variety Amberlight\n", 1)
	want(notes)
	c.notify("textDocument/didClose", object{"textDocument": object{"uri": trees}})
	want(notes, "unknown-name")
	if rules, told := c.diagnosed(trees); !told || rules != nil {
		t.Errorf("of a closed file %v is told", rules)
	}
	if err := os.Remove(filepath.Join(folder, "trees.bud")); err != nil {
		t.Fatal(err)
	}
	watch(3)
	want(notes, "unknown-name", "unknown-name")
	c.notify("textDocument/didClose", object{"textDocument": object{"uri": notes}})
	c.barrier()
	c.wait(func() bool { return len(c.found[notes].Diagnostics) == 0 })
}

// A file that lies in no folder of the editor's goes with those beside it, and
// not with those below.
func TestFileOutsideTheFolders(t *testing.T) {
	folder := t.TempDir()
	for name, text := range map[string]string{
		"trees.bud": "variety Amberlight species \"Eriobotrya japonica\"\ntree M7 variety Amberlight\n", "below/trees.bud": "tree M8 variety Amberlight\n",
	} {
		path := filepath.Join(folder, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	c := newClient(t, diskOptions())
	c.begin(t.TempDir())
	uri := uriOfPath(filepath.Join(folder, "notes.bud"))
	c.open(uri, "note M7 \"in bloom\"\nnote M8 \"in bloom\"\n", 1)
	if rules, _ := c.diagnosed(uri); !slices.Equal(rules, []string{"unknown-name"}) {
		t.Errorf("%v", rules)
	}
	c.notify("workspace/didChangeWorkspaceFolders", object{"event": object{"added": []object{{"uri": uriOfPath(folder), "name": "x"}}, "removed": []object{}}})
	if rules, _ := c.diagnosed(uri); rules != nil {
		t.Errorf("as a folder of the editor's: %v", rules)
	}
}

// One file has one text, in whatever way its URI is written.
func TestWaysToWriteAURI(t *testing.T) {
	c := newClient(t, diskOptions())
	folder := t.TempDir()
	c.begin(folder)
	plain := uriOfPath(filepath.Join(folder, "a b.bud"))
	c.open(strings.ReplaceAll(plain, "%20", "%20"), "note \"one\"\n", 1)
	c.notify("textDocument/didChange", object{
		"textDocument": object{"uri": strings.Replace(plain, "a%20b", "%61%20%62", 1), "version": 2}, "contentChanges": []object{{"text": "note \"two\"\n"}},
	})
	c.barrier()
	if text, _ := c.text(plain); text != "note \"two\"\n" {
		t.Errorf("the text is %q", text)
	}
}

// Windows paths begin with a letter that has no case.
func TestPathsOfURIs(t *testing.T) {
	for uri, want := range map[string]string{
		"file:///home/ines/farm.bud":     "/home/ines/farm.bud",
		"file:///home/ines/../ru/f.bud":  "/home/ru/f.bud",
		"file:///c%3A/farm/season.bud":   "C:/farm/season.bud",
		"file:///C:/farm/season.bud":     "C:/farm/season.bud",
		"file://localhost/farm.bud":      "/farm.bud",
		"file:///%C3%A9t%C3%A9.bud":      "/été.bud",
		"untitled:Untitled-1":            "untitled:Untitled-1",
		"file:///bad%zz":                 "file:///bad%zz",
		"http://budstick.example/ok.bud": "http://budstick.example/ok.bud",
	} {
		if got := filepath.ToSlash(pathOfURI(uri)); got != want {
			t.Errorf("%s: %s, want %s", uri, got, want)
		}
	}
}

// A journal with very many findings shows the gravest.
func TestMostShown(t *testing.T) {
	folder := t.TempDir()
	c := newClient(t, diskOptions())
	c.begin(folder)
	uri := uriOfPath(filepath.Join(folder, "x.bud"))
	var text strings.Builder
	text.WriteString("2026-03-02\n")
	for range mostShown + 50 {
		text.WriteString("spend 12 on \"pots\" worker Ines note \"again\"\n")
	}
	text.WriteString("nonsense\n")
	c.open(uri, text.String(), 1)
	rules, _ := c.diagnosed(uri)
	if len(rules) != mostShown || rules[mostShown-1] != "verb" {
		t.Errorf("%d findings, the last %v", len(rules), rules[max(0, len(rules)-1):])
	}
	want := linted(pathOfURI(uri), source.New(pathOfURI(uri), []byte(text.String())))
	if len(want) <= mostShown {
		t.Errorf("the linter finds only %d", len(want))
	}
}

// What is promised is answered, and what is answered is promised.
func TestCapabilitiesAreKept(t *testing.T) {
	of := map[string][]string{
		"completionProvider": {"textDocument/completion"}, "hoverProvider": {"textDocument/hover"}, "definitionProvider": {"textDocument/definition"},
		"referencesProvider": {"textDocument/references"}, "documentHighlightProvider": {"textDocument/documentHighlight"},
		"renameProvider": {"textDocument/rename", "textDocument/prepareRename"}, "documentSymbolProvider": {"textDocument/documentSymbol"},
		"workspaceSymbolProvider": {"workspace/symbol"}, "documentFormattingProvider": {"textDocument/formatting"},
		"documentRangeFormattingProvider": {"textDocument/rangeFormatting"}, "documentOnTypeFormattingProvider": {"textDocument/onTypeFormatting"},
		"foldingRangeProvider": {"textDocument/foldingRange"}, "codeActionProvider": {"textDocument/codeAction"}, "inlayHintProvider": {"textDocument/inlayHint"},
		"semanticTokensProvider": {"textDocument/semanticTokens/full", "textDocument/semanticTokens/range"},
		"positionEncoding":       nil, "textDocumentSync": nil, "workspace": nil,
	}
	promised := map[string]bool{"shutdown": true}
	for capability := range capabilities("utf-8") {
		methods, known := of[capability]
		if !known {
			t.Errorf("%s is promised, and this test does not know it", capability)
		}
		for _, m := range methods {
			promised[m] = true
			if requests[m] == nil {
				t.Errorf("%s is promised, and %s is not answered", capability, m)
			}
		}
	}
	for m := range requests {
		if !promised[m] {
			t.Errorf("%s is answered, and not promised", m)
		}
	}
}
