package format

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"

	"github.com/budstick/budstick/grammar/source"
)

var update = flag.Bool("update", false, "write the golden files instead of comparing with them")

// Each archive under testdata/format holds a journal and what comes of it: its
// layout, or the places and rules of the findings for which it is refused.
func TestGolden(t *testing.T) {
	paths, err := filepath.Glob("../../testdata/format/*.txtar")
	if err != nil || len(paths) == 0 {
		t.Fatal("no archives", err)
	}
	for _, path := range paths {
		t.Run(strings.TrimSuffix(filepath.Base(path), ".txtar"), func(t *testing.T) {
			a, err := txtar.ParseFile(path)
			if err != nil || len(a.Files) != 2 || a.Files[0].Name != "in.bud" {
				t.Fatal("an archive is in.bud and what comes of it", err)
			}
			got := outcome(a.Files[0].Data)
			if diff := cmp.Diff(a.Files[1], got); diff != "" && !*update {
				t.Errorf("(-want +got)\n%s", diff)
			}
			promises(t, a.Files[0].Data, int32(len(a.Files[0].Data)/2))
			if a.Files[1] = got; *update {
				if err := os.WriteFile(path, txtar.Format(a), 0o666); err != nil {
					t.Fatal(err)
				}
			}
		})
	}
}

func outcome(in []byte) txtar.File {
	f := source.New("in.bud", in)
	out, findings, ok := File(f)
	if ok {
		return txtar.File{Name: "out.bud", Data: out}
	}
	var list strings.Builder
	for _, n := range findings {
		at := f.Position(n.Span.Start)
		fmt.Fprintf(&list, "%d:%d %s\n", at.Line, at.Column, n.Rule)
	}
	return txtar.File{Name: "findings", Data: []byte(list.String())}
}
