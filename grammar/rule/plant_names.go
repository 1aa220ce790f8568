package rule

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/budstick/budstick/grammar/finding"
	spelling "github.com/budstick/budstick/grammar/name"
)

// The two rules about names of plants and the codes of nomenclature.
var (
	epithetForm = &Rule{
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
				if problems := spelling.Epithet(v.Name); len(problems) > 0 {
					p.reportf(v.Made, v.Fact.Name.Span, []string{v.Name}, "%s: %s (%s)", v.Name, problems[0].Text, problems[0].Source)
				}
			}
		},
	}
	botanicalForm = &Rule{
		Name: "botanical-name", Severity: finding.Hint,
		Summary: "a species is not written as a botanical name",
		Why: "The genus with a capital and the species small, as in Eriobotrya japonica, or × before the species of a hybrid. " +
			"By that name the tool finds what it knows of a plant: its family, what it unites with, its days.",
		Bad:  kestrel + "variety Harbourgold species \"mango\"\n",
		Good: kestrel + "variety Harbourgold species \"Mangifera indica\"\n",
		check: func(p *pass) {
			for _, v := range p.Varieties {
				species := v.Fact.Species
				if !species.Given() {
					continue
				}
				if problems := spelling.Botanical(species.Text); len(problems) > 0 {
					f := p.reportf(v.Made, species.Span, []string{v.Name}, "%s: %s (%s)", species.Text, problems[0].Text, problems[0].Source)
					f.Mend = &finding.Mend{Span: species.Span, Text: strconv.Quote(problems[0].Mend)}
				} else if !isBinomial(species.Text) {
					p.reportf(v.Made, species.Span, []string{v.Name}, "%s is no botanical name, which is a genus and a species, such as Eriobotrya japonica", species.Text)
				}
			}
		},
	}
)

// isBinomial reports whether a name begins with a capital and has two words.
func isBinomial(s string) bool {
	words := strings.Fields(strings.TrimLeft(s, "×+ "))
	first, _ := utf8.DecodeRuneInString(strings.TrimLeft(s, "×+ "))
	return len(words) > 1 && unicode.IsUpper(first)
}
