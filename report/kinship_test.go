package report

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/txtar"

	"github.com/budstick/budstick/grammar/nursery"
)

// A published is a pedigree with its table of relationships, twice the
// coancestry; testdata/reference/05_pedigree.json says where each is from and
// how it was checked.
type published struct {
	ID       string `json:"id"`
	Pedigree []struct {
		ID     string `json:"id"`
		Kind   string `json:"kind"`
		Seed   string `json:"seed_parent"`
		Pollen string `json:"pollen_parent"`
	} `json:"pedigree"`
	Inbreeding map[string]float64 `json:"inbreeding"`
	A          [][]float64        `json:"A"`
}

func publishedPedigrees(t *testing.T) []published {
	t.Helper()
	text, err := os.ReadFile("../testdata/reference/05_pedigree.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct {
		Cases []published `json:"cases"`
	}
	if err := json.Unmarshal(text, &file); err != nil || len(file.Cases) != 5 {
		t.Fatalf("%d pedigrees: %v", len(file.Cases), err)
	}
	return file.Cases
}

// agrees compares the report on some names of a journal with the table; names
// are those in the journal of the pedigree's, in its order.
func (p published) agrees(t *testing.T, n *nursery.Nursery, names []string) {
	t.Helper()
	doc, err := kinship.Build(n, Options{Names: names})
	if err != nil {
		t.Fatal(err)
	}
	var answer struct {
		Names      []string
		Coancestry [][]float64
		Inbreeding []float64
	}
	if err := json.Unmarshal(jsonOf(t, *doc), &answer); err != nil {
		t.Fatal(err)
	}
	const tolerance = 1e-12 // of the reference
	for i, row := range p.Pedigree {
		if answer.Names[i] != names[i] {
			t.Errorf("name %d is %s, want %s", i, answer.Names[i], names[i])
		}
		if got, want := answer.Inbreeding[i], p.Inbreeding[row.ID]; math.Abs(got-want) > tolerance {
			t.Errorf("inbreeding of %s is %v, want %v", row.ID, got, want)
		}
		for j := range p.A { // the table of the last stands in another file, for package pedigree
			if got, want := answer.Coancestry[i][j], p.A[i][j]/2; math.Abs(got-want) > tolerance {
				t.Errorf("coancestry of %s and %s is %v, want %v", row.ID, p.Pedigree[j].ID, got, want)
			}
		}
	}
}

// The journals of two pedigrees, written by hand.
func TestPublishedPedigreesAsJournals(t *testing.T) {
	names := map[string][]string{
		"mrode": {"A1", "A2", "A3", "A4", "A5", "A6"},
		"sunburst": {"Clementine", "Dancy", "Duncan", "Orlando", "Robinson", "Osceola", "Lee", "Sunburst", "S2", "Sunburst selfed",
			"O2", "Orlando and Lee"},
	}
	for _, p := range publishedPedigrees(t) {
		short, _, _ := strings.Cut(p.ID, "_")
		if names[short] == nil {
			continue
		}
		t.Run(short, func(t *testing.T) {
			archive, err := txtar.ParseFile("../testdata/report/published-" + short + ".txtar")
			if err != nil {
				t.Fatal(err)
			}
			p.agrees(t, sound(t, string(archive.Files[0].Data)), names[short])
		})
	}
}

// Every pedigree, written as declarations with the children first; a clone is
// a sport.
func TestPublishedPedigreesAsDeclarations(t *testing.T) {
	for _, p := range publishedPedigrees(t) {
		t.Run(p.ID, func(t *testing.T) {
			name := func(id string) string {
				if id == "" {
					return "unknown"
				}
				return fmt.Sprintf("%q", "v "+id)
			}
			text := ""
			var names []string
			for _, row := range p.Pedigree {
				names = append(names, "v "+row.ID)
				says := fmt.Sprintf(`parents %s x %s`, name(row.Seed), name(row.Pollen))
				if row.Kind == "clone" {
					says = "sport of " + name(row.Seed)
				}
				text = fmt.Sprintf("variety %s species \"Citrus reticulata\" %s\n", name(row.ID), says) + text
			}
			p.agrees(t, sound(t, text), names)
		})
	}
}

// A hundred thousand varieties, each raised from the two before it, are
// compared as quickly as they are read.
func TestKinshipAmongManyVarieties(t *testing.T) {
	const count = 100_000
	var b strings.Builder
	b.WriteString("variety V0 species \"Ficus carica\"\nvariety V1 species \"Ficus carica\"\n")
	for i := 2; i < count; i++ {
		fmt.Fprintf(&b, "variety V%d parents V%d x V%d\n", i, i-1, i-2)
	}
	n := sound(t, b.String())
	start := time.Now()
	doc, err := kinship.Build(n, Options{Names: []string{"V0", "V1", "V99999"}})
	if err != nil {
		t.Fatal(err)
	}
	if took := time.Since(start); took > 20*time.Second {
		t.Errorf("%v for %d varieties", took, count)
	}
	var answer struct{ Coancestry [][]float64 }
	if err := json.Unmarshal(jsonOf(t, *doc), &answer); err != nil {
		t.Fatal(err)
	}
	// The shares of two founders in such a line tend to 1/3 and 2/3, so the
	// coancestries with them to a half of that.
	if a, b := answer.Coancestry[2][0], answer.Coancestry[2][1]; math.Abs(a-1.0/6) > 1e-9 || math.Abs(b-1.0/3) > 1e-9 {
		t.Errorf("%v and %v", a, b)
	}
}
