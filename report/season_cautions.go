package report

import (
	"fmt"
	"slices"
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
)

// workCautions are what may hurt someone in the work of a season, by what was
// done and on which plants. None of it says how much of anything to use: the
// label and the local rules do.
func workCautions(n *nursery.Nursery, p Period) []string {
	var sprayed, rooted, cut bool
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
			rooted, cut = rooted || f.Hormone.Given(), true
		case *fact.Graft, *fact.Cut:
			cut = true
		}
	}
	var protected []*nursery.Variety
	for _, b := range n.Batches {
		if p.Contains(b.Day) {
			genus, _, _ := strings.Cut(b.Top.Species(), " ")
			genera[genus] = true
			if v := b.Top.Variety; isProtected(v, b.Day) && b.Kind != nursery.SeedBatch && !slices.Contains(protected, v) {
				protected = append(protected, v)
			}
		}
	}
	var list []string
	if cut {
		list = append(list, "Grafting knives are sharp: cut away from the body with the other hand behind the blade, and keep dressings at hand.")
	}
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
	for _, v := range protected {
		list = append(list, protectedCaution(v))
	}
	return list
}

// isProtected reports whether a variety is a matter of its holder's right on a
// day.
func isProtected(v *nursery.Variety, day fact.Date) bool {
	return v != nil && v.Fact != nil && v.Fact.Protected > 0 && day <= v.Fact.Protected
}

// protectedCaution stands on what is propagated or sold of a protected variety.
func protectedCaution(v *nursery.Variety) string {
	f := v.Fact
	says := v.Name + " is protected until " + f.Protected.Long()
	if f.LicensedN.Given {
		says += fmt.Sprintf(", and the licence %s is for %d", f.Licence.Text, f.LicensedN.N)
	}
	return says + ": ask the holder of the right before it is propagated, sold or given away."
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
