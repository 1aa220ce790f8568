package lsp

import (
	"path/filepath"
	"slices"
	"testing"
)

// A file that goes from one journal to another keeps its findings, whichever of
// the two is quicker to tell.
func TestFindingsWanderWithTheFile(t *testing.T) {
	c := newClient(t, diskOptions())
	c.begin(t.TempDir())
	folder := t.TempDir()
	uri := uriOfPath(filepath.Join(folder, "notes.bud"))
	c.open(uri, "note M7 \"in bloom\"\n", 1)
	moved := func(added, removed []object) {
		c.notify("workspace/didChangeWorkspaceFolders", object{"event": object{"added": added, "removed": removed}})
		if rules, _ := c.diagnosed(uri); !slices.Equal(rules, []string{"unknown-name"}) {
			t.Fatalf("the editor shows %v", rules)
		}
	}
	here, none := []object{{"uri": uriOfPath(folder), "name": "x"}}, []object{}
	for range 300 {
		moved(here, none)
		moved(none, here)
	}
}

// A file that is closed and opened again is told of anew, also by an editor that
// forgets what it was told when it closes a file, and where another file of the
// journal stays open.
func TestFindingsOfAFileOpenedAgain(t *testing.T) {
	folder := t.TempDir()
	c := newClient(t, diskOptions())
	c.begin(folder)
	c.open(uriOfPath(filepath.Join(folder, "other.bud")), "note \"x\"\n", 1)
	uri := uriOfPath(filepath.Join(folder, "notes.bud"))
	for range 200 {
		c.open(uri, "note M7 \"in bloom\"\n", 1)
		if rules, _ := c.diagnosed(uri); !slices.Equal(rules, []string{"unknown-name"}) {
			t.Fatalf("the editor shows %v", rules)
		}
		c.note(func() { delete(c.found, uri) })
		c.notify("textDocument/didClose", object{"textDocument": object{"uri": uri}})
	}
}
