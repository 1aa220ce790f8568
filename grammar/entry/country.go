package entry

import (
	"slices"
	"strings"

	"golang.org/x/text/language"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
)

// formerCountries have three letters that language knows and that ISO 3166-1 does
// not assign: countries that are no more, and reserved codes of parts of some.
var formerCountries = []string{"ANT", "ASC", "CPT", "DGA", "NTZ", "PCI", "SCG", "SUN", "TAA", "YUG"}

// isCountry reports whether three letters are a country's by ISO 3166-1.
func isCountry(code string) bool {
	region, err := language.ParseRegion(code)
	return err == nil && region.IsCountry() && !region.IsPrivateUse() && region.Canonicalize() == region && region.ISO3() == code &&
		!slices.Contains(formerCountries, code)
}

// country refuses what is no country's three letters, and gives them where two
// letters or small ones say which are meant.
func (r *reader) country(n fact.Name) {
	if !n.Given() || isCountry(n.Text) {
		return
	}
	f := finding.Finding{
		Span: n.Span, Severity: finding.Error, Rule: "country",
		Message: n.Text + " is no country; write its three letters by ISO 3166-1, such as AUS or ESP",
	}
	if region, err := language.ParseRegion(strings.ToUpper(n.Text)); err == nil && isCountry(region.ISO3()) {
		f.Mend = &finding.Mend{Span: n.Span, Text: region.ISO3()}
	}
	r.report(f)
}
