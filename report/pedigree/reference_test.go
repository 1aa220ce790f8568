package pedigree

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"os"
	"strconv"
	"testing"
)

// A referenceCase is one pedigree of testdata/reference/05_pedigree.json, each
// with its source:
//
//   - mrode_6: Mrode, Linear Models for the Prediction of Animal Breeding
//     Values, table 2.1 and sections 2.2 to 2.3, as printed;
//   - sunburst_mandarin: parentage as the University of California, Riverside
//     publishes it (Orlando's parents from memory);
//   - selfing_series: Falconer and Mackay, Introduction to Quantitative
//     Genetics, table 5.1, F = 1 - (1/2)^t (from memory, closed form);
//   - classic_matings: Wright 1922, fractions of the textbooks (from memory);
//   - random_40: computed apart, by the tabular method in R, by exact recursion
//     and by gene dropping.
type referenceCase struct {
	ID       string `json:"id"`
	Pedigree []struct {
		ID           string `json:"id"`
		Kind         string `json:"kind"`
		SeedParent   string `json:"seed_parent"`
		PollenParent string `json:"pollen_parent"`
	} `json:"pedigree"`
	Inbreeding map[string]float64 `json:"inbreeding"`
	A          [][]float64        `json:"A"`
	Published  struct {
		D []float64 `json:"D"`
	} `json:"published"`
}

func (c referenceCase) build(t *testing.T) (*Pedigree, []string) {
	t.Helper()
	var individuals []Individual
	var names []string
	for _, row := range c.Pedigree {
		names = append(names, row.ID)
		switch row.Kind {
		case "clone":
			individuals = append(individuals, Individual{Name: row.ID, CloneOf: row.SeedParent})
		case "seed":
			individuals = append(individuals, Individual{Name: row.ID, SeedParent: row.SeedParent, PollenParent: row.PollenParent})
		default:
			t.Fatalf("%s: kind %q", c.ID, row.Kind)
		}
	}
	return mustNew(t, individuals), names
}

func mustNew(t testing.TB, individuals []Individual) *Pedigree {
	t.Helper()
	p, err := New(individuals)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func references(t *testing.T) (cases []referenceCase, tolerance float64) {
	t.Helper()
	text, err := os.ReadFile("../../testdata/reference/05_pedigree.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct {
		Tolerance float64         `json:"tolerance"`
		Cases     []referenceCase `json:"cases"`
	}
	if err := json.Unmarshal(text, &file); err != nil {
		t.Fatal(err)
	}
	if len(file.Cases) != 5 || file.Tolerance <= 0 {
		t.Fatalf("%d cases to tolerance %v", len(file.Cases), file.Tolerance)
	}
	return file.Cases, file.Tolerance
}

func TestReferenceMatrices(t *testing.T) {
	cases, tolerance := references(t)
	for _, c := range cases {
		t.Run(c.ID, func(t *testing.T) {
			p, names := c.build(t)
			f, err := p.Inbreeding(names...)
			if err != nil {
				t.Fatal(err)
			}
			table, err := p.Coancestry(names...)
			if err != nil {
				t.Fatal(err)
			}
			for i, name := range names {
				if want, ok := c.Inbreeding[name]; !ok || math.Abs(f[i]-want) > tolerance {
					t.Errorf("F of %s is %v, not %v", name, f[i], want)
				}
				if c.A == nil {
					continue // given pair by pair in the CSV
				}
				for j, other := range names {
					if want := c.A[i][j] / 2; math.Abs(table[i][j]-want) > tolerance {
						t.Errorf("coancestry of %s and %s is %v, not %v", name, other, table[i][j], want)
					}
				}
			}
		})
	}
}

func TestReferencePairs(t *testing.T) {
	cases, tolerance := references(t)
	pedigrees := map[string]*Pedigree{}
	for _, c := range cases {
		pedigrees[c.ID], _ = c.build(t)
	}
	file, err := os.Open("../../testdata/reference/05_pedigree_pairs.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 1084 {
		t.Fatalf("%d rows", len(rows))
	}
	for _, row := range rows[1:] { // case, i, j, A, coancestry
		want, err := strconv.ParseFloat(row[4], 64)
		if err != nil {
			t.Fatal(err)
		}
		table, err := pedigrees[row[0]].Coancestry(row[1], row[2])
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(table[0][1]-want) > tolerance || table[0][1] != table[1][0] {
			t.Errorf("%s: coancestry of %s and %s is %v, not %v", row[0], row[1], row[2], table[0][1], want)
		}
	}
}

// Mrode prints the diagonal of D for his six animals to three decimals.
func TestMendelianSamplingAsPrinted(t *testing.T) {
	cases, _ := references(t)
	printed := 0
	for _, c := range cases {
		if c.Published.D == nil {
			continue
		}
		printed++
		p, names := c.build(t)
		d := samplingVariances(p.cross, inbreeding(p.cross))
		for i, name := range names {
			if got := d[p.genotype[name]]; math.Abs(got-c.Published.D[i]) > 0.0005 {
				t.Errorf("D of %s is %v, printed as %v", name, got, c.Published.D[i])
			}
		}
	}
	if printed != 1 {
		t.Fatalf("%d cases print D", printed)
	}
}
