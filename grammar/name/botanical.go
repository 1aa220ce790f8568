package name

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode"
)

// Botanical checks the scientific name of a plant, such as Citrus ×limon: that a
// hybrid sign is × or a small x that stands by itself, that + has blanks between
// two names, that ranks are abbreviated as is usual, and that nothing stands in it
// that is no part of a botanical name: the name of a cultivar, that of an author,
// a letter that is not Latin, a genus that is cut short.
func Botanical(name string) []Problem {
	var problems []Problem
	for _, check := range botanicalChecks {
		if text, mend, bad := check.find(name); bad {
			problems = append(problems, Problem{check.rule, text, mend, check.source})
		}
	}
	return problems
}

const (
	namesRecalled = "Code for algae, fungi, and plants (ICN), articles 20 to 24; from memory"
	ranksRecalled = "Code for algae, fungi, and plants (ICN), article 5A; from memory"
)

var botanicalChecks = []epithetCheck{
	{"letters", namesRecalled, foreignLetters},
	{"hybrid-sign", hybridSeen, func(name string) (text, mend string, bad bool) {
		mend = mendHybridSign(name)
		return "the sign of a hybrid is ×, or a small x with a blank behind it", mend, mend != name
	}},
	{"chimaera-sign", chimaeraSeen, func(name string) (text, mend string, bad bool) {
		mend = mendChimaeraSign(name)
		return "+ between the two plants of a graft-chimaera has a blank on either side; for an ordinary graft name the scion and the stock instead",
			mend, mend != name
	}},
	{"cultivar", namesRecalled, cultivarWithin},
	{"rank", ranksRecalled, rankSpelt},
	{"capitals", namesRecalled, botanicalCapitals},
	{"genus", namesRecalled, genusCutShort},
	{"author", namesRecalled, authorWithin},
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

// foreignLetters finds letters that no botanical name has: those are Latin by rule.
func foreignLetters(name string) (text, mend string, bad bool) {
	for _, r := range name {
		if unicode.IsLetter(r) && !unicode.Is(unicode.Latin, r) {
			return fmt.Sprintf("%q is no Latin letter, though it may look like one; botanical names have no other: type it again", r), "", true
		}
	}
	return "", "", false
}

func cultivarWithin(name string) (text, mend string, bad bool) {
	before, _, quoted := strings.Cut(strings.Map(func(r rune) rune {
		if strings.ContainsRune("‘’‚“”„\"`", r) {
			return '\''
		}
		return r
	}, name), "'")
	return "the name of a cultivar is no part of the species; it stands behind variety", strings.TrimSpace(before), quoted
}

// ranks are the abbreviations of the ranks below a species, by how they are met.
var ranks = map[string]string{
	"ssp": "subsp.", "ssp.": "subsp.", "subsp": "subsp.", "subspecies": "subsp.", "var": "var.", "variety": "var.", "forma": "f.", "spp.": "sp.", "spp": "sp.", "sp": "sp.",
}

// rankWords are the words of a name that say a rank.
var rankWords = []string{"subsp.", "var.", "subvar.", "f.", "convar.", "sp.", "cf.", "aff."}

// saysRank reports whether a word is one for a rank, well written or not.
func saysRank(word string) bool { return ranks[word] != "" || slices.Contains(rankWords, word) }

func rankSpelt(name string) (text, mend string, bad bool) {
	words := strings.Split(name, " ")
	for i, word := range words {
		if right, ok := ranks[word]; ok && i > 0 {
			words[i] = right
			text = fmt.Sprintf("%s is written %s in a botanical name", word, right)
		}
	}
	return text, strings.Join(words, " "), text != ""
}

// A formula has several names in it, of parents or of the plants of a chimaera.
func isFormula(words []string) bool {
	for i, word := range words {
		if i > 0 && i+1 < len(words) && isSign(word) && startsUpper(words[i+1]) {
			return true
		}
	}
	return false
}

// isSign reports whether a word is a sign of crossing or joining, well written or
// not.
func isSign(word string) bool {
	return word == "×" || word == "x" || word == "+" || aloneAsX.MatchString(word)
}

func startsUpper(word string) bool { return unicode.IsUpper(firstOf(strings.TrimLeft(word, "×+"))) }

// botanicalCapitals wants the genus with a capital and the species without.
func botanicalCapitals(name string) (text, mend string, bad bool) {
	words := strings.Split(name, " ")
	genus := 0
	for genus < len(words)-1 && isSign(words[genus]) {
		genus++
	}
	if isFormula(words) || genus+1 >= len(words) || mendHybridSign(name) != name {
		return "", "", false
	}
	species := genus + 1
	if isSign(words[species]) && species+1 < len(words) {
		species++
	}
	words[genus], words[species] = withCapital(words[genus]), strings.ToLower(words[species])
	mend = strings.Join(words, " ")
	return "the genus has a capital, and the species has none", mend, mend != name && !slices.Contains(words[species:], "Group")
}

// withCapital writes a word small but for its first letter, behind a sign.
func withCapital(word string) string {
	sign := len(word) - len(strings.TrimLeft(word, "×+"))
	r := []rune(strings.ToLower(word[sign:]))
	if len(r) == 0 {
		return word
	}
	r[0] = unicode.ToUpper(r[0])
	return word[:sign] + string(r)
}

var shortGenus = regexp.MustCompile(`^[×+]?\p{L}{1,4}\.$`)

func genusCutShort(name string) (text, mend string, bad bool) {
	genus, _, more := strings.Cut(name, " ")
	return fmt.Sprintf("%s is cut short; write the whole genus, so that the plant is known by it", genus), "", more && shortGenus.MatchString(genus)
}

// authorWithin finds the name of who first described a plant, behind its own.
func authorWithin(name string) (text, mend string, bad bool) {
	words := strings.Split(name, " ")
	if len(words) < 3 || isFormula(words) || strings.ContainsAny(name, `'"‘’“”`) || slices.Contains(words, "Group") {
		return "", "", false
	}
	kept := words[:1:1]
	for i := 1; i < len(words); i++ {
		word := words[i]
		isAuthor := i > 1 && !isSign(words[i-1]) && !isSign(word) && !saysRank(word) && (startsUpper(word) || strings.ContainsAny(word, "(&.") || word == "ex")
		if !isAuthor {
			kept = append(kept, word)
		}
	}
	mend = strings.Join(kept, " ")
	return "the name of who described a plant is no part of its own here; leave it out", mend, mend != name
}
