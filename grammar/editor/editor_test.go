package editor

import (
	"flag"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write the files anew")

// The files are those that the grammar makes.
func TestFilesAreFresh(t *testing.T) {
	for _, f := range Files() {
		if *update {
			if err := os.MkdirAll(filepath.Dir(f.Path), 0o755); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(f.Path, []byte(f.Text), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		got, err := os.ReadFile(f.Path)
		if err != nil {
			t.Error(err)
			continue
		}
		if diff := cmp.Diff(string(got), f.Text); diff != "" {
			t.Errorf("%s is stale, see go test -update (-is +should be):\n%s", f.Path, diff)
		}
	}
}
