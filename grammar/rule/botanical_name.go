package rule

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/budstick/budstick/grammar/finding"
	spelling "github.com/budstick/budstick/grammar/name"
)

var botanicalForm = &Rule{
	Name: "botanical-name", Severity: finding.Hint,
	Summary: "a species is not written as a botanical name",
	Why: "The genus with a capital and the species small, as in Eriobotrya japonica, or × before the species of a hybrid. " +
		"By that name the tool finds what it knows of a plant: its family, what it unites with, its days. Papers want it whole, and nothing else in it: " +
		"no name of a cultivar, and none of who described it.",
	Bad:  kestrel + "variety Harbourgold species \"mango\"\n",
	Good: kestrel + "variety Harbourgold species \"Mangifera indica\"\n",
	check: func(p *pass) {
		for _, v := range p.Varieties {
			species := v.Fact.Species
			if !species.Given() {
				continue
			}
			problems := spelling.Botanical(species.Text)
			for _, problem := range problems {
				f := p.reportf(v.Made, species.Span, []string{v.Name}, "%s: %s (%s)", species.Text, problem.Text, problem.Source)
				if problem.Mend != "" {
					f.Mend = &finding.Mend{Span: species.Span, Text: strconv.Quote(problem.Mend)}
				}
			}
			if len(problems) == 0 && !isBinomial(species.Text) {
				p.reportf(v.Made, species.Span, []string{v.Name}, "%s is no botanical name, which is a genus and a species, such as Eriobotrya japonica", species.Text)
			}
		}
	},
}

// isBinomial reports whether a name begins with a capital and has two words.
func isBinomial(s string) bool {
	words := strings.Fields(strings.TrimLeft(s, "×+ "))
	first, _ := utf8.DecodeRuneInString(strings.TrimLeft(s, "×+ "))
	return len(words) > 1 && unicode.IsUpper(first)
}
