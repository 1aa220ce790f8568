package name

import (
	"regexp"
	"strings"
)

// Botanical checks the scientific name of a plant, such as Citrus ×limon, for
// the signs of hybrids and of graft-chimaeras: that a hybrid sign is × or a
// small x that stands by itself, and that + has blanks between two names.
func Botanical(name string) []Problem {
	var problems []Problem
	if mend := mendHybridSign(name); mend != name {
		problems = append(problems, Problem{
			Rule:   "hybrid-sign",
			Text:   "the sign of a hybrid is ×, or a small x with a blank behind it",
			Mend:   mend,
			Source: hybridSeen,
		})
	}
	if mend := mendChimaeraSign(name); mend != name {
		problems = append(problems, Problem{
			Rule:   "chimaera-sign",
			Text:   "+ between the two plants of a graft-chimaera has a blank on either side; for an ordinary graft name the scion and the stock instead",
			Mend:   mend,
			Source: chimaeraSeen,
		})
	}
	return problems
}

// These match a word in which x is meant as the sign of a hybrid.
var (
	aloneAsX       = regexp.MustCompile(`^[X*✕✖]$`)
	gluedToGenus   = regexp.MustCompile(`^[xX](\p{Lu}\p{Ll})`)
	gluedToEpithet = regexp.MustCompile(`^x(\p{Ll})`)
)

// greekX matches beginnings of words that are spelt with x.
var greekX = regexp.MustCompile(`^x(anth|en|er|im|iph|yl|yr)`)

func mendHybridSign(name string) string {
	words := strings.Split(name, " ")
	for i, word := range words {
		switch {
		case aloneAsX.MatchString(word):
			words[i] = "×"
		case gluedToGenus.MatchString(word):
			words[i] = gluedToGenus.ReplaceAllString(word, "×$1")
		case i > 0 && !greekX.MatchString(word):
			words[i] = gluedToEpithet.ReplaceAllString(word, "×$1")
		}
	}
	return strings.Join(words, " ")
}

// mendChimaeraSign puts blanks around every + but one at the beginning, which
// marks a name and not a formula.
func mendChimaeraSign(name string) string {
	rest, marked := strings.CutPrefix(name, "+")
	plants := strings.Split(rest, "+")
	if len(plants) == 1 {
		return name
	}
	for i := range plants {
		plants[i] = strings.TrimSpace(plants[i])
	}
	rest = strings.Join(plants, " + ")
	if marked {
		return "+" + rest
	}
	return rest
}
