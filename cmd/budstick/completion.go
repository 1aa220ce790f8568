package main

import (
	"embed"
	"fmt"

	"github.com/spf13/pflag"
)

// The scripts know nothing of budstick but its name: they ask it what a line
// can go on with (see complete).
//
//go:embed completion
var completionScripts embed.FS

var shells = []string{"bash", "zsh", "fish"}

var completionCommand = &command{
	name:    "completion",
	summary: "print the script by which a shell completes commands, flags and names",
	usage:   "SHELL",
	long: `SHELL is bash, zsh or fish; the first lines of the script say where it goes. Then the shell completes commands, flags and their
values, rules, and the names in the journal at hand: lots, trees and varieties, methods, workers and places.`,
	example: "bash",
	setup: func(*pflag.FlagSet) action {
		return func(t *terminal, args []string) (status, error) {
			if len(args) != 1 {
				return statusCannot, usageError{"completion is for one shell: bash, zsh or fish", "budstick completion --help"}
			}
			if err := among(args[0], shells); err != nil {
				return statusCannot, usageError{fmt.Sprintf("there is no completion for this shell: %v", err), ""}
			}
			script, err := completionScripts.ReadFile("completion/budstick." + args[0])
			if err != nil {
				return statusCannot, err
			}
			return statusDone, t.data.print(string(script))
		}
	},
}
