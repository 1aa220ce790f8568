package stat

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"
)

const references = "../../testdata/reference"

// row is one line of a reference table, by column.
type row map[string]string

func readTable(t *testing.T, name string) []row {
	t.Helper()
	file, err := os.Open(filepath.Join(references, name))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	lines, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows []row
	for _, line := range lines[1:] {
		r := row{}
		for i, column := range lines[0] {
			r[column] = line[i]
		}
		rows = append(rows, r)
	}
	if len(rows) == 0 {
		t.Fatalf("%s is empty", name)
	}
	return rows
}

func (r row) float(t *testing.T, column string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(r[column], 64)
	if err != nil {
		t.Fatalf("column %q: %v", column, err)
	}
	return v
}

func (r row) int(t *testing.T, column string) int {
	t.Helper()
	v, err := strconv.Atoi(r[column])
	if err != nil {
		t.Fatalf("column %q: %v", column, err)
	}
	return v
}

func readCase(t *testing.T, name string, into any) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(references, name))
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, into); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
}

// near fails unless got is within tolerance of want, or equal to it where it
// is infinite. No NaN passes.
func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if got == want {
		return
	}
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.15g, want %.15g within %g", what, got, want, tolerance)
	}
}

func nearInterval(t *testing.T, what string, got Interval, low, high, tolerance float64) {
	t.Helper()
	near(t, what+" low", got.Low, low, tolerance)
	near(t, what+" high", got.High, high, tolerance)
}
