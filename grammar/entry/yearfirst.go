package entry

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/syntax"
)

// yearFirst explains a date in a form that the language does not use, and
// offers the date meant where there is only one reading. It says nothing about
// what is no date.
func yearFirst(text string) (say, mend string) {
	meant := datesMeant(syntax.Hyphens(text))
	if len(meant) == 0 {
		return "", ""
	}
	if len(meant) == 1 {
		mend = meant[0]
	}
	return "a date is written year first: " + orList(meant), mend
}

// datesMeant are the dates that a text in another form can mean: the day
// before the month, as most of the world writes it, then the month before the
// day; or a month and a year.
func datesMeant(s string) []string {
	parts := strings.FieldsFunc(s, func(c rune) bool { return strings.ContainsRune(" .-/,", c) })
	var n [3]int
	named := -1
	for i, p := range parts {
		month, ok := monthNamed(p)
		number, err := strconv.Atoi(p)
		switch {
		case i == len(n) || !ok && err != nil:
			return nil
		case ok:
			n[i], named = int(month), i
		default:
			n[i] = number
		}
	}
	switch {
	case len(parts) == 2 && len(parts[0]) == 4 && named != 0:
		return isoMonth(n[0], n[1])
	case len(parts) == 2 && len(parts[1]) == 4 && named != 1:
		return isoMonth(n[1], n[0])
	case len(parts) != 3:
		return nil
	case len(parts[0]) == 4 && named != 0:
		return isoDay(n[0], n[1], n[2])
	case named == 0:
		return isoDay(year(parts[2], n[2]), n[0], n[1])
	case named == 1:
		return isoDay(year(parts[2], n[2]), n[1], n[0])
	}
	y := year(parts[2], n[2])
	all := slices.Concat(isoDay(y, n[1], n[0]), isoDay(y, n[0], n[1]))
	return slices.Compact(all)
}

// year reads two digits as of this century.
func year(text string, n int) int {
	if len(text) == 2 {
		return 2000 + n
	}
	return n
}

func isoDay(y, m, d int) []string {
	if day, ok := fact.NewDate(y, time.Month(m), d); ok {
		return []string{day.String()}
	}
	return nil
}

func isoMonth(y, m int) []string {
	if m < 1 || m > 12 {
		return nil
	}
	return []string{fmt.Sprintf("%04d-%02d", y, m)}
}

// monthNamed reads the name of a month or its first three letters.
func monthNamed(s string) (time.Month, bool) {
	s = strings.ToLower(s)
	for m := time.January; m <= time.December && len(s) >= 3; m++ {
		if strings.HasPrefix(strings.ToLower(m.String()), s) {
			return m, true
		}
	}
	return 0, false
}
