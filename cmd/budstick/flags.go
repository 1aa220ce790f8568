package main

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"github.com/budstick/budstick/grammar/fact"
)

// globals are the flags that every command takes.
type globals struct {
	help, version bool
	colour        string
	width         int
	noPager       bool
}

// newFlags makes the flags of a command (or, for none, of the program) with the
// global ones in it.
func newFlags(c *command) (*pflag.FlagSet, *globals) {
	title := "budstick"
	if c != nil {
		title = c.name
	}
	flags := pflag.NewFlagSet(title, pflag.ContinueOnError)
	flags.SetOutput(io.Discard) // what is wrong is said once, by run
	flags.SortFlags = false
	g := &globals{colour: colourAuto}
	flags.BoolVarP(&g.help, "help", "h", false, "tell what there is to tell, and do nothing")
	flags.BoolVar(&g.version, "version", false, "tell the version")
	flags.Var(oneOf(&g.colour, colourAuto, colourAlways, colourNever), "color", "use colours: `WHEN` is auto (on a terminal), always or never")
	flags.Var(number(&g.width, 20, 1000), "width", "lay text out for `N` characters a line, instead of the terminal's own width or 80")
	flags.BoolVar(&g.noPager, "no-pager", false, "show long text on a terminal at once, and not page by page")
	return flags, g
}

// isGlobal reports whether every command takes the flag.
func isGlobal(flag string) bool {
	return slices.Contains([]string{"help", "version", "color", "width", "no-pager"}, flag)
}

func (g *globals) apply(t *terminal) {
	t.set(g.colour, g.width)
	if g.noPager {
		t.data.atOnce()
	}
}

// parse reads the flags and puts what is wrong with them in a grower's words.
func parse(c *command, flags *pflag.FlagSet, args []string) error {
	err := flags.Parse(args)
	if err == nil {
		return nil
	}
	slip := usageError{err.Error(), "budstick help"}
	if c != nil {
		slip.see = "budstick " + c.name + " --help"
	}
	var (
		unknown *pflag.NotExistError
		missing *pflag.ValueRequiredError
		invalid *pflag.InvalidValueError
		syntax  *pflag.InvalidSyntaxError
	)
	switch {
	case errors.As(err, &unknown):
		slip.message = unknownFlag(flags, unknown)
	case errors.As(err, &missing):
		slip.message = fmt.Sprintf("--%s wants a value: --%s %s", missing.GetFlag().Name, missing.GetFlag().Name, valueName(missing.GetFlag()))
	case errors.As(err, &invalid):
		slip.message = fmt.Sprintf("--%s: %v", invalid.GetFlag().Name, invalid.Unwrap())
		if invalid.GetFlag().Value.Type() == "bool" {
			slip.message = fmt.Sprintf("--%s takes no value", invalid.GetFlag().Name)
		}
	case errors.As(err, &syntax):
		slip.message = syntax.GetSpecifiedFlag() + " is no flag; a flag is written --name value"
	}
	return slip
}

func unknownFlag(flags *pflag.FlagSet, e *pflag.NotExistError) string {
	if short := e.GetSpecifiedShortnames(); short != "" {
		return fmt.Sprintf("%s has no flag -%s", flags.Name(), e.GetSpecifiedName())
	}
	var names []string
	flags.VisitAll(func(f *pflag.Flag) { names = append(names, "--"+f.Name) })
	given := "--" + e.GetSpecifiedName()
	return fmt.Sprintf("%s has no flag %s%s", flags.Name(), given, orMeant(given, names))
}

// valueName is what help calls the value of a flag.
func valueName(f *pflag.Flag) string {
	value, _ := pflag.UnquoteUsage(f)
	return value
}

// A value is a flag's value that is read by a function of ours, so that a slip
// is told in plain words.
type value[T any] struct {
	to   *T
	read func(string) (T, error)
	show func(T) string
}

func (v value[T]) String() string { return v.show(*v.to) }

func (v value[T]) Set(s string) error {
	x, err := v.read(s)
	if err == nil {
		*v.to = x
	}
	return err
}

func (v value[T]) Type() string { return "value" }

func asIs(s string) string { return s }

// A choice is a value that is a word among some, or several with commas.
type choice struct {
	pflag.Value
	words   []string
	several bool
}

// oneOf is a word among some.
func oneOf(to *string, words ...string) pflag.Value {
	return choice{value[string]{to, func(s string) (string, error) { return s, among(s, words) }, asIs}, words, false}
}

// among is an error that lists the words where word is none of them.
func among(word string, words []string) error {
	if slices.Contains(words, word) {
		return nil
	}
	return fmt.Errorf("%s is none of %s%s", word, strings.Join(words, ", "), orMeant(word, words))
}

// number is a whole number between two others.
func number(to *int, low, high int) pflag.Value {
	return value[int]{to, func(s string) (int, error) {
		n, err := strconv.Atoi(s)
		if err != nil || n < low || n > high {
			return 0, fmt.Errorf("%s is no whole number from %d to %d", s, low, high)
		}
		return n, nil
	}, func(n int) string {
		if n == 0 {
			return ""
		}
		return strconv.Itoa(n)
	}}
}

// A lineRange is lines of a file, counted from 1; the zero value is none.
type lineRange struct{ first, last int }

// linesOf is a line or two with a dash between them.
func linesOf(to *lineRange) pflag.Value {
	return value[lineRange]{to, func(s string) (lineRange, error) {
		from, till, two := strings.Cut(s, "-")
		if !two {
			till = from
		}
		first, err1 := strconv.Atoi(from)
		last, err2 := strconv.Atoi(till)
		if err1 != nil || err2 != nil || first < 1 || last < first {
			return lineRange{}, fmt.Errorf("%s is not a line or two, such as 12 or 12-15", s)
		}
		return lineRange{first, last}, nil
	}, func(lineRange) string { return "" }}
}

// day is a date.
func day(to *fact.Date) pflag.Value {
	return value[fact.Date]{to, func(s string) (fact.Date, error) {
		d, ok := fact.ParseDate(s)
		if !ok {
			return 0, fmt.Errorf("%s is no date; a date is written 2026-03-02", s)
		}
		return d, nil
	}, fact.Date.String}
}

// years is a year, that may be given several times.
func years(to *[]int) pflag.Value {
	return value[[]int]{to, func(s string) ([]int, error) {
		year, ok := yearOf(s)
		if !ok {
			return nil, fmt.Errorf("%s is no year; a season is named by the year in which it ends, such as 2026", s)
		}
		return append(*to, year), nil
	}, func([]int) string { return "" }}
}

// yearOf reads a year of four digits.
func yearOf(s string) (int, bool) {
	first, ok := fact.ParseDate(s + "-01-01")
	year, _, _ := first.Civil()
	return year, ok
}

// words is a list of words with commas, that may be given several times; all
// must be among some.
func words(to *[]string, of []string) pflag.Value {
	v := value[[]string]{to, func(s string) ([]string, error) {
		list := *to
		for word := range strings.SplitSeq(s, ",") {
			word = strings.TrimSpace(word)
			if err := among(word, of); err != nil {
				return nil, err
			}
			list = append(list, word)
		}
		return list, nil
	}, func(list []string) string { return strings.Join(list, ",") }}
	return choice{v, of, true}
}

// twoWords is two words with a comma, that may be given several times; both
// must be among some.
func twoWords(to *[][2]string, of []string) pflag.Value {
	v := value[[][2]string]{to, func(s string) ([][2]string, error) {
		a, b, ok := strings.Cut(s, ",")
		a, b = strings.TrimSpace(a), strings.TrimSpace(b)
		if !ok || a == b {
			return nil, fmt.Errorf("%s is not two of %s with a comma between them", s, strings.Join(of, ", "))
		}
		if err := errors.Join(among(a, of), among(b, of)); err != nil {
			return nil, err
		}
		return append(*to, [2]string{a, b}), nil
	}, func([][2]string) string { return "" }}
	return choice{v, of, true}
}
