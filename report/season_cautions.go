package report

import (
	"slices"
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
)

// workCautions are what may hurt someone in the work of a season, by what was
// done and on which plants. None of it says how much of anything to use: the
// label and the local rules do.
func workCautions(n *nursery.Nursery, p Period) []string {
	var sprayed, rooted bool
	genera := map[string]bool{}
	for _, e := range n.Entries {
		if !p.Contains(e.Date) {
			continue
		}
		switch f := e.Effect.(type) {
		case *fact.Treat:
			sprayed = true
		case *fact.Tend:
			sprayed = sprayed || f.With.Given()
		case *fact.Begin:
			rooted = rooted || f.Hormone.Given()
		case *fact.Layer:
			rooted = rooted || f.Hormone.Given()
		}
	}
	for _, b := range n.Batches {
		if p.Contains(b.Day) {
			genus, _, _ := strings.Cut(b.Top.Species(), " ")
			genera[genus] = true
		}
	}
	var list []string
	if sprayed {
		list = append(list, "Plants were treated: what the label of each product and the law of the place say goes, for those who spray, for those who come in after, and for the fruit.")
	}
	if rooted {
		list = append(list, "Rooting hormone was used: gloves, and nothing in the eyes or the lungs; the label says the rest.")
	}
	for _, c := range sapCautions {
		if slices.ContainsFunc(c.genera, func(g string) bool { return genera[g] }) {
			list = append(list, c.says)
		}
	}
	return list
}

// sapCautions are about plants whose sap hurts: common knowledge of the trade,
// from memory; whoever is hurt asks a doctor.
var sapCautions = []struct {
	genera []string
	says   string
}{
	{[]string{"Ficus"}, "Fig sap on skin in the sun raises blisters that take weeks to heal: cover up, wash it off before going out, and show blisters to a doctor."},
	{[]string{"Citrus", "Poncirus"}, "Citrus juice and sap on skin in the sun may burn it: wash it off before going out."},
	{[]string{"Mangifera", "Anacardium", "Pistacia"}, "Sap, bark and leaves of mango and its kin raise a rash, sometimes a day later: gloves and sleeves, wash with soap, and ask a doctor."},
	{[]string{"Annona"}, "Seed and bark of annonas hurt the eyes: keep the dust away from them."},
}
