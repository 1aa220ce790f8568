package name

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A Problem is something in a name that the rules for naming plants don't
// allow.
type Problem struct {
	Rule   string // which check found it: a word that stays the same
	Text   string // what is wrong and what to write, for a grower
	Mend   string // the whole name put right, or "" where a person must choose
	Source string // the rule it rests on, and how sure that is
}

// The rules that the checks rest on. The numbers of articles are from memory
// throughout.
const (
	marksSeen    = "ICNCP, 9th edition (2016), article 14; read in a summary"
	formSeen     = "ICNCP, 9th edition (2016), article 21; read in a summary"
	formRecalled = "ICNCP, 9th edition (2016), article 21; from memory"
	chimaeraSeen = "ICNCP, 9th edition (2016), article 24; read in a summary"
	hybridSeen   = "Code for algae, fungi, and plants (ICN), article H.3; read in a summary"
)

// Epithet checks the name of a cultivar, with or without the single quotes
// around it, against those rules of the International Code of Nomenclature for
// Cultivated Plants (9th edition, 2016) that can be checked on the name alone.
// Which of the rules bind depends on the year in which the name was given, and
// names given before a rule are kept; so a problem is a thing to look into.
//
// Not checked: that no Latin is used (names since 1959), that the name is new
// within its denomination class, and that it isn't a trade designation.
func Epithet(name string) []Problem {
	var problems []Problem
	for _, check := range epithetChecks {
		if text, mend, bad := check.find(name); bad {
			problems = append(problems, Problem{check.rule, text, mend, check.source})
		}
	}
	return problems
}

// An epithetCheck finds one thing wrong with a name, as text and mend of
// Problem have it.
type epithetCheck struct {
	rule   string
	source string
	find   func(name string) (text, mend string, bad bool)
}

var epithetChecks = []epithetCheck{
	{"double-quotes", marksSeen, doubleQuotes},
	{"abbreviation", marksSeen, abbreviation},
	{"capitals", formSeen, capitals},
	{"length", formSeen, length},
	{"too-bare", formSeen, tooBare},
	{"word", formRecalled, bannedWord},
	{"praise", formRecalled, praise},
	{"hybrid-sign", formRecalled, signOfCross},
	{"chimaera-sign", chimaeraSeen, signOfChimaera},
	{"sign", formRecalled, strangeSign},
	{"letters", "Unicode Technical Standard 39, section 5.1, from memory", mixedLetters},
}

// bare is name without the quotes around it, of any kind.
func bare(name string) string {
	for _, pair := range []string{`''`, "‘’", `""`, "“”", "„“"} {
		left := string(firstOf(pair))
		right := pair[len(left):]
		if inner, ok := strings.CutPrefix(name, left); ok {
			if inner, ok = strings.CutSuffix(inner, right); ok {
				return inner
			}
		}
	}
	return name
}

func doubleQuotes(name string) (text, mend string, bad bool) {
	if !strings.ContainsAny(name, `"“”„`) {
		return "", "", false
	}
	inner := strings.Map(func(r rune) rune {
		if strings.ContainsRune(`"“”„`, r) {
			return -1
		}
		return r
	}, name)
	return "a cultivar's name stands in single quotes, never in double ones: leave those out", inner, true
}

var (
	abbreviated = regexp.MustCompile(`(?i)^(?:cvs?(?:\.\s*|\s+)|var\.\s*)`)
	trailing    = regexp.MustCompile(`(?i)\s+(?:cvs?|var)\.?$`)
)

func abbreviation(name string) (text, mend string, bad bool) {
	mark := abbreviated.FindString(name)
	mend = strings.TrimPrefix(name, mark)
	if mark == "" {
		mark = trailing.FindString(name)
		mend = strings.TrimSuffix(name, mark)
	}
	if mark == "" || mend == "" {
		return "", "", false
	}
	return fmt.Sprintf("%q doesn't mark a cultivar any more: single quotes do, so leave it out", strings.TrimSpace(mark)), mend, true
}

// smallWords are those that stay small within a name, by the custom of their
// languages.
var smallWords = []string{
	"a", "an", "and", "at", "by", "for", "from", "in", "of", "on", "or", "the", "to", "with",
	"à", "au", "aux", "d", "da", "das", "de", "del", "della", "den", "der", "des", "di", "do", "dos", "du",
	"e", "el", "en", "et", "l", "la", "las", "le", "les", "los", "op", "ter", "und", "van", "von", "y", "zu",
}

// shouted is how many letters in capitals are a name and no code such as BA29.
const shouted = 5

func capitals(name string) (text, mend string, bad bool) {
	name = bare(name)
	mend = capitalised(name)
	switch {
	case isShouted(mend):
		return "only the first letter of each word is a capital", capitalised(strings.ToLower(name)), true
	case mend != name:
		return fmt.Sprintf("each word begins with a capital: %q", mend), mend, true
	}
	return "", "", false
}

func isShouted(name string) bool {
	letters := 0
	for _, r := range name {
		switch {
		case unicode.IsUpper(r):
			letters++
		case unicode.IsLetter(r) || unicode.IsDigit(r):
			return false
		}
	}
	return letters >= shouted
}

// capitalised gives every word of name a capital, save small words that
// aren't the first.
func capitalised(name string) string {
	words := strings.Split(name, " ")
	for i, word := range words {
		if i > 0 && slices.Contains(smallWords, strings.TrimRight(word, ".,!")) {
			continue
		}
		first := firstOf(word)
		if unicode.IsLower(first) && !isElided(word) {
			words[i] = string(unicode.ToTitle(first)) + word[utf8.RuneLen(first):]
		}
	}
	return strings.Join(words, " ")
}

// isElided reports whether word is one like d'Or, whose capital comes later.
func isElided(word string) bool {
	at := strings.IndexAny(word, "'’")
	return at > 0 && slices.Contains(smallWords, word[:at])
}

// maxLength is the most characters of a name given since 1996.
const maxLength = 30

func length(name string) (text, mend string, bad bool) {
	n := 0
	for _, r := range bare(name) {
		if !unicode.IsSpace(r) && !unicode.IsMark(r) {
			n++
		}
	}
	if n <= maxLength {
		return "", "", false
	}
	return fmt.Sprintf("%d characters without the blanks; a name given since 1996 has at most %d", n, maxLength), "", true
}

// romanNumeral matches the numerals from 1 to 3999, and the empty string.
var romanNumeral = regexp.MustCompile(`^M{0,3}(CM|CD|D?C{0,3})(XC|XL|L?X{0,3})(IX|IV|V?I{0,3})$`)

func tooBare(name string) (text, mend string, bad bool) {
	signs := strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return r
		}
		return -1
	}, bare(name))
	switch {
	case signs == "":
		return "a name needs a word", "", true
	case utf8.RuneCountInString(signs) == 1 && unicode.IsLetter(firstOf(signs)) && !unicode.Is(unicode.Han, firstOf(signs)):
		return "one letter alone is no name: put a word to it", "", true
	case strings.Trim(signs, "0123456789") == "" || romanNumeral.MatchString(signs):
		return "a number alone is no name: put a word to it", "", true
	}
	return "", "", false
}

func firstOf(s string) rune {
	r, _ := utf8.DecodeRuneInString(s)
	return r
}

// wordOf finds the first word of name that is in list.
func wordOf(name string, list []string) (word string, found bool) {
	for word := range strings.FieldsFuncSeq(name, func(r rune) bool { return !unicode.IsLetter(r) }) {
		if slices.Contains(list, Fold(word)) {
			return word, true
		}
	}
	return "", false
}

// bannedWords are those that would make a name read as a rank or a kind of
// group, in the singular and the plural.
var bannedWords = []string{
	"cultivar", "cultivars", "form", "forms", "grex", "grexes", "group", "groups", "hybrid", "hybrids",
	"improved", "maintenance", "mixture", "mixtures", "selection", "selections", "series",
	"sport", "sports", "strain", "strains", "transformed", "variety", "varieties",
}

func bannedWord(name string) (text, mend string, bad bool) {
	word, bad := wordOf(name, bannedWords)
	return fmt.Sprintf("%q says what kind of thing a plant is and can't be part of its name", word), "", bad
}

// praises are English superlatives that growers are fond of.
var praises = []string{
	"best", "biggest", "earliest", "finest", "greatest", "hardiest", "juiciest", "largest", "latest",
	"longest", "most", "smallest", "sweetest", "tastiest",
}

func praise(name string) (text, mend string, bad bool) {
	word, bad := wordOf(name, praises)
	return fmt.Sprintf("%q praises the plant, which may turn out untrue; a name only names it", word), "", bad
}

// crossed matches a sign of crossing between two words.
var crossed = regexp.MustCompile(`×|\S\s+[xX]\s+\S|^[xX]\s+\S|^x\p{Lu}`)

func signOfCross(name string) (text, mend string, bad bool) {
	return "a sign of crossing has no place in the name of a cultivar: write what it was raised from as its parents",
		"", crossed.MatchString(bare(name))
}

func signOfChimaera(name string) (text, mend string, bad bool) {
	return "+ marks a graft-chimaera, whose tissues have grown into one; " +
		"an ordinary grafted tree is a scion on a stock and has no name of its own", "", strings.Contains(name, "+")
}

func strangeSign(name string) (text, mend string, bad bool) {
	const allowed = `'’‘,.!-‐/\+×"“”„` // the last of these are for other checks
	for _, r := range bare(name) {
		if !unicode.IsLetter(r) && !unicode.IsMark(r) && !unicode.IsDigit(r) && r != ' ' && !strings.ContainsRune(allowed, r) {
			return fmt.Sprintf("%q can't stand in a name: letters, digits, apostrophes, commas, full stops, hyphens, slashes and ! can", r),
				"", true
		}
	}
	return "", "", false
}

// mixedLetters finds a word of Latin letters with a Greek or Cyrillic one among
// them, which looks right and is another name.
func mixedLetters(name string) (text, mend string, bad bool) {
	for word := range strings.FieldsFuncSeq(name, func(r rune) bool { return !isLetter(r) }) {
		if r, ok := strayLetter(word); ok {
			return fmt.Sprintf("%q in %s is no Latin letter, though it looks like one: type it again", r, word), "", true
		}
	}
	return "", "", false
}

// strayLetter is a Greek or Cyrillic letter of a word that has Latin ones too.
func strayLetter(word string) (stray rune, ok bool) {
	latin := false
	for _, r := range word {
		switch {
		case unicode.Is(unicode.Latin, r):
			latin = true
		case stray == 0 && unicode.In(r, unicode.Greek, unicode.Cyrillic):
			stray = r
		}
	}
	return stray, latin && stray != 0
}
