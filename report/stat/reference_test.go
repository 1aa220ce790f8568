package stat

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"gonum.org/v1/gonum/mathext"
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

// contains reports whether v lies within the interval, ends included.
func (i Interval) contains(v float64) bool { return i.Low <= v && v <= i.High }

// logBetaBinomial is the logarithm of the chance of k successes of n trials that
// share one chance, itself drawn from Beta(a, b): C(n,k) B(k+a, n-k+b) / B(a, b).
//
// J. G. Skellam (1948), Journal of the Royal Statistical Society B 10:257-261.
func logBetaBinomial(k, n int, a, b float64) float64 {
	x, m := float64(k), float64(n)
	return -math.Log(m+1) - mathext.Lbeta(m-x+1, x+1) + mathext.Lbeta(x+a, m-x+b) - mathext.Lbeta(a, b)
}

// oddsRatio is the cross product of a two by two table, a's odds over b's.
func oddsRatio(a, b Tally) float64 { return float64(a.X*(b.N-b.X)) / float64(b.X*(a.N-a.X)) }
