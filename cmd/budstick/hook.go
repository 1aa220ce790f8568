package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/pflag"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/finding"
)

var hookCommand = &command{
	name:    "hook",
	summary: "have git look a journal over before each commit",
	usage:   "install | remove | run",
	long: `install puts a pre-commit hook into this checkout (also where core.hooksPath says so, and in a worktree). It never
overwrites a hook of somebody else's: then it says what to add to that one. remove takes it out again.

run is what the hook calls: it lints the journals as they are staged, not as they lie in the folder, and refuses a commit
that has an error in it or that changes what was committed before (see guard).`,
	example: "install",
	setup: func(*pflag.FlagSet) action {
		acts := map[string]func(*terminal, repository) (status, error){"install": installHook, "remove": removeHook, "run": runHook}
		return func(t *terminal, args []string) (status, error) {
			if len(args) != 1 || acts[args[0]] == nil {
				return statusCannot, usageError{"hook takes one word: install, remove or run", "budstick hook --help"}
			}
			r, err := repositoryHere()
			if err != nil {
				return statusCannot, err
			}
			return acts[args[0]](t, r)
		}
	},
}

// hookLine is the one line that does the work, wherever it stands.
const hookLine = "budstick hook run"

// hookText is the whole hook. Its second line tells it from hooks of others.
const hookText = `#!/bin/sh
# Put here by budstick hook install; budstick hook remove takes it out.
exec ` + hookLine + `
`

// hookPath is where git looks for the hook of this checkout.
func hookPath(r repository) (string, error) {
	out, err := git(r.top, "rev-parse", "--git-path", "hooks/pre-commit")
	if err != nil {
		return "", err
	}
	path := strings.TrimSuffix(string(out), "\n")
	if !filepath.IsAbs(path) {
		path = filepath.Join(r.top, path)
	}
	return path, nil
}

func installHook(t *terminal, r repository) (status, error) {
	path, err := hookPath(r)
	if err != nil {
		return statusCannot, err
	}
	switch old, err := os.ReadFile(path); {
	case err == nil && string(old) == hookText:
		t.say("the hook is there already: %s", path)
		return statusDone, nil
	case err == nil:
		return statusCannot, fmt.Errorf("%s is there already and is not ours; add this line to it: %s || exit 1", path, hookLine)
	case !os.IsNotExist(err):
		return statusCannot, err
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return statusCannot, err
	}
	if err := replaceFile(path, []byte(hookText)); err != nil {
		return statusCannot, err
	}
	if err := os.Chmod(path, 0o755); err != nil {
		return statusCannot, err
	}
	t.say("git now looks the journals over before each commit: %s", path)
	return statusDone, nil
}

func removeHook(t *terminal, r repository) (status, error) {
	path, err := hookPath(r)
	if err != nil {
		return statusCannot, err
	}
	old, err := os.ReadFile(path)
	if err != nil || string(old) != hookText {
		return statusCannot, fmt.Errorf("%s is not the hook that budstick put there, so it is left alone", path)
	}
	if err := os.Remove(path); err != nil {
		return statusCannot, err
	}
	t.say("the hook is gone: %s", path)
	return statusDone, nil
}

// runHook lints what is staged and guards what was committed.
func runHook(t *terminal, r repository) (status, error) {
	files, err := r.files("")
	if err != nil {
		return statusCannot, err
	}
	pages := make([]*entry.Page, len(files))
	each(len(files), func(i int) { pages[i] = entry.Read(files[i]) })
	_, found := journal{pages}.lint(t)
	list := errorsIn(found)
	changed, err := r.guard(t, "HEAD", true)
	if err != nil {
		return statusCannot, err
	}
	list = finding.Sort(append(list, changed...))
	code, err := tellOf(t, list)
	if code == statusFound {
		t.say("\nThe commit is refused: %s in the journals as they are staged.", tally(list))
	}
	return code, err
}
