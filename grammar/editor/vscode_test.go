package editor

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// readJSON reads a file of the extension.
func readJSON(t *testing.T, name string, into any) {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("vscode", name))
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, into); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
}

// What the extension says of itself is there: its files, and the language by one
// name everywhere.
func TestExtensionIsWhole(t *testing.T) {
	var p struct {
		Main        string
		Contributes struct {
			Languages []struct {
				ID            string
				Extensions    []string
				Configuration string
			}
			Grammars []struct{ Language, ScopeName, Path string }
		}
	}
	readJSON(t, "package.json", &p)
	language, grammar := p.Contributes.Languages[0], p.Contributes.Grammars[0]
	if language.ID != grammar.Language || !slices.Equal(language.Extensions, []string{".bud"}) {
		t.Errorf("the language is %v, and its grammar %v", language, grammar)
	}
	var g struct{ ScopeName string }
	readJSON(t, grammar.Path, &g)
	if g.ScopeName != grammar.ScopeName {
		t.Errorf("the grammar is called %s, and %s where it is named", g.ScopeName, grammar.ScopeName)
	}
	var c any
	readJSON(t, language.Configuration, &c)
	if _, err := os.Stat(filepath.Join("vscode", p.Main)); err != nil {
		t.Error(err)
	}
}

// The extension starts the program that the setting names as a language server,
// for journals, and stops it.
func TestExtensionStartsTheServer(t *testing.T) {
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("node is not installed")
	}
	out, err := exec.Command(node, "testdata/extension.cjs", "vscode/extension.js").CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	var got any
	if err := json.Unmarshal(out, &got); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	want := map[string]any{
		"server":  map[string]any{"command": "budstick.command", "args": []any{"lsp"}},
		"options": map[string]any{"documentSelector": []any{map[string]any{"language": "budstick"}}},
		"started": true, "stopped": true,
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}
