package main

import (
	"slices"
	"strings"
	"sync"

	"github.com/spf13/pflag"

	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report"
)

// completeWord is the command by which the scripts of completion ask how a line
// can go on. It is for them alone, so no help tells of it.
const completeWord = "complete"

// complete prints how the last of the words can go on, one way a line, with what
// it means behind a tabulator. It prints nothing where the names of files are
// wanted, or anything else that it does not know.
func complete(t *terminal, words []string) (status, error) {
	if len(words) == 0 {
		words = []string{""}
	}
	c := completer{t: t, before: words[:len(words)-1], word: words[len(words)-1]}
	c.book = sync.OnceValue(c.load)
	var b strings.Builder
	for _, o := range c.ways() {
		if strings.HasPrefix(o.word, c.word) && !strings.ContainsAny(o.word, "\t\n") {
			b.WriteString(o.word + "\t" + o.means + "\n")
		}
	}
	return statusDone, t.data.print(b.String())
}

// A way is how a word can go on.
type way struct{ word, means string }

// A completer knows a command line up to the word that is being written.
type completer struct {
	t      *terminal
	before []string
	word   string
	book   func() *nursery.Nursery
}

// ways lists how the word can go on, whatever it begins with.
func (c *completer) ways() []way {
	list := commands()
	at := commandIndex(list, c.before)
	if at < 0 {
		flags, _ := newFlags(nil)
		if f := c.flagAtHand(flags); f != nil {
			return valuesOf(f, c.word, c.book)
		}
		if strings.HasPrefix(c.word, "-") {
			return flagWays(flags)
		}
		return commandWays(list)
	}
	command, err := commandNamed(list, c.before[at])
	if err != nil {
		return nil
	}
	if dash := slices.Index(c.before, "--"); dash > at && command.name == "watch" {
		return c.reportWays(c.before[dash+1:])
	}
	flags, _ := newFlags(command)
	command.setup(flags)
	if f := c.flagAtHand(flags); f != nil {
		return valuesOf(f, c.word, c.book)
	}
	ended := slices.Contains(c.before, "--")
	if name, value, ok := strings.Cut(c.word, "="); ok && !ended {
		if f := flags.Lookup(strings.TrimPrefix(name, "--")); f != nil && strings.HasPrefix(name, "--") {
			return prefixed(name+"=", valuesOf(f, value, c.book))
		}
	}
	if strings.HasPrefix(c.word, "-") && !ended {
		return flagWays(flags)
	}
	return c.arguments(command, len(operands(flags, c.before[at+1:])))
}

// flagAtHand is the flag whose value is being written, as a word of its own.
func (c *completer) flagAtHand(flags *pflag.FlagSet) *pflag.Flag {
	if len(c.before) == 0 || slices.Contains(c.before, "--") {
		return nil
	}
	return valueFlag(flags, c.before[len(c.before)-1])
}

// valueFlag is the flag that a word is, if the next word is its value.
func valueFlag(flags *pflag.FlagSet, word string) *pflag.Flag {
	var f *pflag.Flag
	if long, ok := strings.CutPrefix(word, "--"); ok {
		f = flags.Lookup(long)
	} else if len(word) > 1 && word[0] == '-' {
		f = flags.ShorthandLookup(word[len(word)-1:])
	}
	if f == nil || f.NoOptDefVal != "" {
		return nil
	}
	return f
}

// operands are the words that are neither flags nor values of flags.
func operands(flags *pflag.FlagSet, words []string) []string {
	var list []string
	for i := 0; i < len(words); i++ {
		switch word := words[i]; {
		case word == "--":
			return append(list, words[i+1:]...)
		case len(word) < 2 || word[0] != '-':
			list = append(list, word)
		case valueFlag(flags, word) != nil:
			i++
		}
	}
	return list
}

// reportWays lists how the report can go on that stands behind -- of watch.
func (c *completer) reportWays(before []string) []way {
	if len(before) == 0 {
		return waysOf(report.All, func(r *report.Report) way { return way{r.Name, r.Summary} })
	}
	inner := completer{t: c.t, before: before, word: c.word, book: c.book}
	return inner.ways()
}

func commandWays(list []*command) []way {
	ways := make([]way, len(list))
	for i, x := range list {
		ways[i] = way{x.name, x.summary}
	}
	return ways
}

func flagWays(flags *pflag.FlagSet) []way {
	var ways []way
	flags.VisitAll(func(f *pflag.Flag) {
		_, usage := pflag.UnquoteUsage(f)
		ways = append(ways, way{"--" + f.Name, usage})
	})
	return ways
}

func prefixed(prefix string, ways []way) []way {
	for i := range ways {
		ways[i].word = prefix + ways[i].word
	}
	return ways
}

// valuesOf lists what the value of a flag may be: words that the flag knows, or
// names of the journal.
func valuesOf(f *pflag.Flag, begun string, book func() *nursery.Nursery) []way {
	if known, ok := f.Value.(choice); ok {
		return known.ways(begun)
	}
	if names, ok := namesFor[f.Name]; ok {
		return names(book())
	}
	return nil
}

// ways lists the words; with commas those that do not stand there yet.
func (v choice) ways(begun string) []way {
	given, last := "", strings.LastIndex(begun, ",")
	if v.several {
		given = begun[:last+1]
	}
	var ways []way
	for _, word := range v.words {
		if !slices.Contains(strings.Split(given, ","), word) {
			ways = append(ways, way{given + word, ""})
		}
	}
	return ways
}

// arguments lists what the argument of a command may be that has n before it.
func (c *completer) arguments(x *command, n int) []way {
	if n > 0 {
		return nil
	}
	if r, ok := report.Named(x.name); ok {
		switch r.Subject {
		case report.OneThing:
			return thingWays(c.book())
		case report.OneSeason:
			return seasonWays(c.book())
		}
		return nil
	}
	switch x.name {
	case explainCommand.name:
		return explained()
	case "help":
		return commandWays(commands())
	case completionCommand.name:
		return waysOf(shells, func(s string) way { return way{s, ""} })
	case hookCommand.name:
		return []way{{"install", ""}, {"remove", ""}, {"run", ""}}
	}
	return nil
}
