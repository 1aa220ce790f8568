package main

import (
	"errors"
	"io"
	"os"
	"runtime/debug"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"github.com/budstick/budstick/grammar/name"
)

// A status is what the program ends with.
type status int

const (
	statusDone   status = 0 // it did what it was asked, and found nothing at the level asked
	statusFound  status = 1 // it found something: in the journal, or a file that is not formatted
	statusCannot status = 2 // it could not do it: a slip on the command line, a file that can't be read
)

// A command is one thing that the program does.
type command struct {
	name    string
	summary string // one line, without a full stop
	usage   string // what follows the name
	long    string // paragraphs
	example string // arguments of a run to copy
	// setup adds the command's own flags and returns what is done once they
	// have been read.
	setup func(*pflag.FlagSet) action
}

// An action does what a command is for. What it returns as an error is said to
// the user, and the status is then statusCannot.
type action func(t *terminal, args []string) (status, error)

// commands lists what the program does, in the order of its help. Reports
// follow by themselves.
func commands() []*command {
	return slices.Concat(
		[]*command{lintCommand, watchCommand(), explainCommand, formatCommand},
		reportCommands(),
		[]*command{exportCommand, beginCommand, bringCommand, jotCommand, lspCommand, sealCommand, guardCommand, hookCommand, inventCommand, completionCommand, manCommand(), helpCommand()},
	)
}

// commandNamed finds a command, or says which may have been meant.
func commandNamed(list []*command, word string) (*command, error) {
	names := make([]string, len(list))
	for i, c := range list {
		if c.name == word {
			return c, nil
		}
		names[i] = c.name
	}
	hint := orMeant(word, names)
	if _, err := os.Stat(word); err == nil && hint == "" {
		hint = "; to look it over: budstick lint " + word
	}
	return nil, usageError{word + " is no command" + hint, "budstick help"}
}

// orMeant ends a message about an unknown word with the one that was meant, or
// with nothing.
func orMeant(word string, among []string) string {
	if meant, ok := name.Suggest(word, among); ok {
		return "; did you mean " + meant + "?"
	}
	return ""
}

// A usageError is a slip on the command line; see is a command that helps.
type usageError struct{ message, see string }

func (e usageError) Error() string { return e.message }

// run is the whole program: it reads the command line, does what it says and
// returns the status to end with.
func run(args []string, stdin io.Reader, stdout, stderr io.Writer, env func(string) string) int {
	debug.SetGCPercent(rarely) // until it is known how large the journal is
	t := newTerminal(stdin, stdout, stderr, env)
	code, err := dispatch(t, args)
	if err == nil {
		return int(code)
	}
	t.complain(err)
	return int(statusCannot)
}

// complain says why something could not be done.
func (t *terminal) complain(err error) {
	t.say("budstick: %v", err)
	if slip := (usageError{}); errors.As(err, &slip) && slip.see != "" {
		t.say("%s tells more", slip.see)
	}
}

// dispatch finds the command and its arguments. Flags may stand anywhere, also
// before the command.
func dispatch(t *terminal, args []string) (status, error) {
	if len(args) > 0 && args[0] == completeWord {
		return complete(t, args[1:])
	}
	list := commands()
	at := commandIndex(list, args)
	if at < 0 {
		return withoutCommand(t, list, args)
	}
	c, err := commandNamed(list, args[at])
	if err != nil {
		return statusCannot, err
	}
	flags, global := newFlags(c)
	do := c.setup(flags)
	if err := parse(c, flags, slices.Delete(slices.Clone(args), at, at+1)); err != nil {
		return statusCannot, err
	}
	global.apply(t)
	switch {
	case global.help:
		return statusDone, t.data.print(commandHelp(t.data, c))
	case global.version:
		return statusDone, t.data.print(version() + "\n")
	}
	return do(t, flags.Args())
}

// withoutCommand answers a command line that names no command.
func withoutCommand(t *terminal, list []*command, args []string) (status, error) {
	flags, global := newFlags(nil)
	if err := parse(nil, flags, args); err != nil {
		return statusCannot, err
	}
	global.apply(t)
	switch {
	case global.version:
		return statusDone, t.data.print(version() + "\n")
	case global.help:
		return statusDone, t.data.print(overview(t.data, list))
	}
	return statusCannot, t.talk.print(overview(t.talk, list))
}

// commandIndex is where the command stands among args: the first that is
// neither a flag nor the value of one; -1 where there is none.
func commandIndex(list []*command, args []string) int {
	for i := 0; i < len(args); i++ {
		arg := args[i]
		switch {
		case arg == "--":
			if i+1 < len(args) {
				return i + 1
			}
			return -1
		case len(arg) < 2 || arg[0] != '-':
			return i
		case !strings.Contains(arg, "=") && takesValue(list, arg):
			i++
		}
	}
	return -1
}

// takesValue reports whether the argument after a flag is its value. Flags of
// one name are alike in this in all commands.
func takesValue(list []*command, arg string) bool {
	for _, c := range list {
		flags, _ := newFlags(c)
		c.setup(flags)
		var f *pflag.Flag
		if long, isLong := strings.CutPrefix(arg, "--"); isLong {
			f = flags.Lookup(long)
		} else if f = flags.ShorthandLookup(arg[1:2]); f != nil && len(arg) > 2 && f.NoOptDefVal == "" {
			return false // the value is run together with the flag
		} else if len(arg) > 2 {
			f = flags.ShorthandLookup(arg[len(arg)-1:])
		}
		if f != nil {
			return f.NoOptDefVal == ""
		}
	}
	return false
}
