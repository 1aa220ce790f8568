package table

import (
	"bytes"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"
	"golang.org/x/text/language"
)

var update = flag.Bool("update", false, "write the golden files instead of comparing with them")

const goldenDir = "../../testdata/report/table"

// TestGolden fixes the layout of every writer. What the figures in it must be is
// tested elsewhere, against the rules of rounding and of the formats.
func TestGolden(t *testing.T) {
	for name, sample := range samples {
		d := sample()
		writers := map[string]func(io.Writer) error{
			name + ".txt":  func(w io.Writer) error { return WriteText(w, d, TextOptions{}) },
			name + ".json": func(w io.Writer) error { return WriteJSON(w, d) },
		}
		if len(d.Tables()) > 0 {
			writers[name+".csv"] = func(w io.Writer) error { return WriteCSV(w, d, "") }
		}
		if len(d.Chapters) > 0 { // the book holds all the others
			writers[name+"-narrow.txt"] = func(w io.Writer) error { return WriteText(w, d, TextOptions{Width: 48}) }
			writers[name+"-narrowest.txt"] = func(w io.Writer) error { return WriteText(w, d, TextOptions{Width: 20}) }
			writers[name+"-wide-german.txt"] = func(w io.Writer) error { return WriteText(w, d, TextOptions{Width: 120, Language: language.German}) }
			writers[name+".html"] = func(w io.Writer) error { return WriteHTML(w, d, HTMLOptions{}) }
		}
		for i, block := range d.Body {
			if p, ok := block.(Plot); ok {
				writers[fmt.Sprintf("%s-%d.svg", name, i+1)] = func(w io.Writer) error { return WriteSVG(w, p, language.Und) }
			}
		}
		for file, write := range writers {
			t.Run(file, func(t *testing.T) {
				var got bytes.Buffer
				if err := write(&got); err != nil {
					t.Fatal(err)
				}
				golden(t, file, got.Bytes())
			})
		}
	}
}

func golden(t *testing.T, file string, got []byte) {
	t.Helper()
	path := filepath.Join(goldenDir, file)
	if *update {
		if err := os.MkdirAll(goldenDir, 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), string(got)); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}
