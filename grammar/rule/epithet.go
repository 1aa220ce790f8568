package rule

import (
	"github.com/budstick/budstick/grammar/finding"
	spelling "github.com/budstick/budstick/grammar/name"
)

var epithetForm = &Rule{
	Name: "epithet", Severity: finding.Hint,
	Summary: "the name of a variety is not formed as the rules for cultivated plants have it",
	Why: "The International Code of Nomenclature for Cultivated Plants (9th edition, 2016) says how names of cultivars are formed, and labels follow it. " +
		"Names given before a rule are kept, so this is something to look into. Rootstocks often go by a code and are not asked about.",
	Bad:  kestrel + "variety \"BEST GIANT\" species \"Eriobotrya japonica\"\n",
	Good: kestrel + "variety \"Harbour Giant\" species \"Eriobotrya japonica\"\n",
	check: func(p *pass) {
		for _, v := range p.Varieties {
			if v.Fact.Rootstock {
				continue
			}
			abbreviated := false
			for _, problem := range spelling.Epithet(v.Name) {
				abbreviated = abbreviated || problem.Rule == "abbreviation"
				if problem.Rule == "capitals" && abbreviated { // what is to be left out wants no capital
					continue
				}
				p.reportf(v.Made, v.Fact.Name.Span, []string{v.Name}, "%s: %s (%s)", v.Name, problem.Text, problem.Source)
			}
		}
	},
}
