package report

import (
	"strings"
	"testing"

	"github.com/budstick/budstick/report/table"
)

// Every report asks its filters alike: filters of one name are alternatives, those
// of two names must both hold, and names are compared as a journal compares them.
func TestFilters(t *testing.T) {
	n := sound(t, `variety Amberlight species "Eriobotrya japonica"
variety Redwing species "Eriobotrya japonica"
variety Lanternfall species "Diospyros kaki"
place shade-1
place terrace-3
tree M7 variety Amberlight at terrace-3 planted 2013
tree R1 variety Redwing at terrace-3 planted 2013
2026-03-02
buy 10 trees of Amberlight as A at shade-1
buy 20 trees of Redwing as R at shade-1
buy 30 trees of Lanternfall as L at terrace-3
2026-03-03
sell L to Bob at 9.00 each
`)
	filters := func(spoken string) (list []table.Filter) {
		for _, word := range strings.Fields(spoken) {
			name, value, _ := strings.Cut(word, "=")
			list = append(list, table.Filter{Name: name, Value: value})
		}
		return list
	}
	for spoken, want := range map[string]string{
		"":                                   "A R; M7 R1; Amberlight Redwing Lanternfall",
		"variety=amberlight":                 "A; M7; Amberlight",
		"variety=Redwing variety=AMBERLIGHT": "A R; M7 R1; Amberlight Redwing",
		"variety=Lanternfall":                "; ; Lanternfall",
		"variety=Redwing place=shade-1":      "R; ; ",
		"place=terrace-3":                    "; M7 R1; ",
		"variety=Redwing variety=Amberlight place=terrace-3": "; M7 R1; ",
		"lot=r": "R; ; ",
	} {
		var lots, trees, varieties []string
		for _, l := range standing(n, filters(spoken)) {
			lots = append(lots, l.Name)
		}
		for _, tree := range n.Trees {
			if treePasses(tree, filters(spoken)) {
				trees = append(trees, tree.Name)
			}
		}
		for _, v := range n.Varieties {
			if varietyPasses(v, filters(spoken)) {
				varieties = append(varieties, v.Name)
			}
		}
		got := strings.Join(lots, " ") + "; " + strings.Join(trees, " ") + "; " + strings.Join(varieties, " ")
		if got != want {
			t.Errorf("%s: %s, want %s", spoken, got, want)
		}
		for _, r := range []*Report{stock, due} { // what is gone, or was never there, is no slip
			if _, err := r.Build(n, Options{AsAt: n.Last, Filters: filters(spoken)}); err != nil {
				t.Errorf("%s %s: %v", r.Name, spoken, err)
			}
		}
	}
	for _, r := range []*Report{stock, due} {
		_, err := r.Build(n, Options{AsAt: n.Last, Filters: filters("variety=Amberlite")})
		if want := `no lot and no tree has the variety "Amberlite"`; err == nil || err.Error() != want {
			t.Errorf("%s: %v, want %s", r.Name, err, want)
		}
	}
}
