package rule

import (
	"github.com/budstick/budstick/grammar/finding"
	spelling "github.com/budstick/budstick/grammar/name"
	"github.com/budstick/budstick/grammar/nursery"
)

var speciesDiffers = &Rule{
	Name: "species-differs", Severity: finding.Warning,
	Summary: "a variety is declared to be of another species than what it comes from",
	Why: "A sport is of the species of the plant that it arose on, and what was raised of two parents of one species is of that species. One of the two statements is " +
		"wrong, and with it the family, the unions and the papers. A cross of two species may be declared as either, or with its own hybrid name.",
	Bad:  kestrel + "variety Emberlight sport of Amberlight species \"Ficus carica\"\n",
	Good: kestrel + "variety Emberlight sport of Amberlight\n",
	check: func(p *pass) {
		for _, v := range p.Varieties {
			said := v.Fact.Species
			from := v.SportOf
			if from == nil && v.SeedParent != nil && v.Pollen != nil && spelling.Fold(v.SeedParent.Species) == spelling.Fold(v.Pollen.Species) {
				from = v.SeedParent
			}
			if !said.Given() || from == nil || from.Species == "" || spelling.Fold(said.Text) == spelling.Fold(from.Species) {
				continue
			}
			f := p.reportf(v.Made, said.Span, []string{v.Name, from.Name}, "%s is said to be %s, and %s is %s; one of the two is wrong",
				v.Name, said.Text, cameOf(v), from.Species)
			also(f, from.Made, "declared here")
		}
	},
}

// cameOf names what a variety comes from.
func cameOf(v *nursery.Variety) string {
	if v.SportOf != nil {
		return v.SportOf.Name + ", of which it is a sport,"
	}
	return "each of its parents, " + v.SeedParent.Name + " and " + v.Pollen.Name + ","
}
