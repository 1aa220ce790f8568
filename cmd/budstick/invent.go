package main

import (
	"io"

	"github.com/spf13/pflag"

	"github.com/budstick/budstick/grammar/invent"
)

var inventCommand = &command{
	name:    "invent",
	summary: "write the journal of a nursery that never was, to try things on",
	long: `The journal has no contradictions and can be of any size. The same size and seed give the same journal. It goes to standard
output; put it into a file whose name ends in ` + suffix + ` to look at it with the other commands.`,
	example: "--entries 1000 --seed 7",
	setup:   setupInvent,
}

func setupInvent(flags *pflag.FlagSet) action {
	entries, seed := 400, 1
	flags.Var(number(&entries, 1, 100_000_000), "entries", "write about `N` entries")
	flags.Var(number(&seed, 0, 1<<31-1), "seed", "invent another nursery for every `N`")
	return func(t *terminal, args []string) (status, error) {
		if len(args) > 0 {
			return statusCannot, usageError{"invent reads nothing; leave out " + args[0], "budstick invent --help"}
		}
		return statusDone, t.data.write(func(w io.Writer) error { return invent.Write(w, entries, uint64(seed)) })
	}
}
