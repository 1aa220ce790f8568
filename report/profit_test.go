package report

import (
	"path/filepath"
	"testing"
)

// TestMoneyAnswers asks the questions about money in testdata/report; how such a
// file is read is told at TestAnswers.
func TestMoneyAnswers(t *testing.T) {
	for _, name := range []string{"profit", "owed", "mothers", "accountant"} {
		files, err := filepath.Glob("../testdata/report/" + name + "-*.txtar")
		if err != nil || len(files) == 0 {
			t.Fatalf("no questions about %s: %v", name, err)
		}
		for _, path := range files {
			t.Run(filepath.Base(path), func(t *testing.T) { askFile(t, path) })
		}
	}
}
